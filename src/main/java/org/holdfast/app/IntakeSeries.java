package org.holdfast.app;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.volume.ScanFacts;

/**
 * One series as a person is shown it before it is taken in. Immutable.
 *
 * @param id names it in its session
 * @param seriesUid SeriesInstanceUID; empty text if its files do not say
 * @param kind what it is good for
 * @param modality such as CT
 * @param name what it is in own plain words, such as "Bone kernel"
 * @param described the words of the scanner for it; shown here only, never in a reading
 * @param extent pixel and slice facts in short, such as "0.6 mm, 412"
 * @param files how many files it has
 * @param proposed the role that it would have
 * @param possible the roles that it may have, in the order of the enum
 * @param why why the role is proposed
 * @param notes what a person should know
 * @param scan how it was made; empty unless it can be measured
 * @param mayShowText whether text, such as a name, may be burned into its pictures
 */
public record IntakeSeries(
        String id,
        String seriesUid,
        Kind kind,
        String modality,
        String name,
        String described,
        String extent,
        int files,
        SeriesRole proposed,
        List<SeriesRole> possible,
        String why,
        List<IntakeNote> notes,
        Optional<ScanFacts> scan,
        boolean mayShowText) {

    /** What a series is good for. */
    public enum Kind {
        /** Slices whose values are HU. */
        VOLUME,
        /** Slices whose values are something else. */
        SLICES,
        /** Projection radiographs. */
        FILM,
        /** A localizer: a projection made before the scan. */
        LOCALIZER,
        /** Other pictures: captures, renderings. */
        PICTURE,
        /** No picture. */
        OTHER
    }

    public IntakeSeries {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(proposed, "proposed");
        Objects.requireNonNull(scan, "scan");
        possible = List.copyOf(possible);
        notes = List.copyOf(notes);
    }

    /** Whether something about it is to be kept in mind with every number. */
    public boolean hasCaution() {
        return notes.stream()
                .anyMatch(note -> note.mark() == IntakeNote.Mark.CAUTION
                        || note.mark() == IntakeNote.Mark.LIMIT
                        || note.mark() == IntakeNote.Mark.FAULT);
    }
}
