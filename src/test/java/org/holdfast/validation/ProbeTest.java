package org.holdfast.validation;

import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

class ProbeTest {
    @Test
    void probe() {
        long t0 = System.nanoTime();
        for (ValidationRow r : LucencyValidation.run(
                new LucencyValidation.Extent(
                        Integer.getInteger("a", 10), Integer.getInteger("b", 2), Integer.getInteger("c", 2)),
                Integer.getInteger("draw", 0),
                Progress.NONE)) {
            System.out.println(r.measure() + " | n " + r.n() + " na " + r.notApplicable() + " | " + r.bias() + " "
                    + r.lower() + " " + r.upper() + " | " + r.reached());
        }
        System.out.println((System.nanoTime() - t0) * 1e-9 + " s");
    }
}
