package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Kernels as scanners write them, by class; what is not known is neutral. */
class KernelSharpnessTest {

    @ParameterizedTest
    @CsvSource({
        "B60s, BONE",
        "B70f, BONE",
        "Br59d, BONE",
        "Hr64, BONE",
        "I70f\\3, BONE",
        "B30f, SOFT",
        "B25f, SOFT",
        "Br40, STANDARD",
        "B46f, STANDARD",
        "B90s, EDGE",
        "BONE, BONE",
        "BONEPLUS, BONE",
        "STANDARD, STANDARD",
        "STD+, STANDARD",
        "SOFT, SOFT",
        "LUNG, EDGE",
        "YA, BONE",
        "D, BONE",
        "UB, STANDARD",
        "B, STANDARD",
        "A, SOFT",
        "FC30, BONE",
        "FC81, BONE",
        "FC08, SOFT",
        "FC52, EDGE",
        "SIM BONE 60, BONE",
        "SIM SOFT 40, SOFT",
        "11, UNKNOWN",
        "'', UNKNOWN",
        "ABC99, UNKNOWN"
    })
    void isReadFromTheName(String kernel, KernelSharpness sharpness) {
        assertEquals(sharpness, KernelSharpness.of(kernel));
    }
}
