package org.holdfast.desktop.viewmodel;

import java.util.Objects;
import org.holdfast.volume.HuVolume;

/** How far an exam's images are. All are immutable. */
public sealed interface ExamLoad {

    /**
     * They are being read.
     *
     * @param fraction done so far, 0 to 1
     * @param activity what is being done, in words
     */
    record Loading(double fraction, String activity) implements ExamLoad {

        public Loading {
            Objects.requireNonNull(activity, "activity");
            if (!(fraction >= 0 && fraction <= 1)) {
                throw new IllegalArgumentException("fraction must lie in [0, 1], got " + fraction);
            }
        }
    }

    /**
     * They are there.
     *
     * @param volume the HU
     */
    record Loaded(HuVolume volume) implements ExamLoad {

        public Loaded {
            Objects.requireNonNull(volume, "volume");
        }
    }

    /**
     * They could not be read.
     *
     * @param why what failed and where, in words
     */
    record Failed(String why) implements ExamLoad {

        public Failed {
            Objects.requireNonNull(why, "why");
        }
    }
}
