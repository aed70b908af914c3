package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

final class SoftwareTest {

    @Test
    void carriesTheVersionThatTheBuildWrote() {
        assertTrue(
                Software.running().toString().matches("holdfast \\d+\\.\\d+\\.\\d+.*"), Software.running()::toString);
    }
}
