package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.holdfast.cases.SampleSubject;
import org.holdfast.construct.ConstructPart;
import org.junit.jupiter.api.Test;

class ShortNameTest {

    @Test
    void keepsTheLevel() {
        assertEquals("Screw L2 left", ShortName.of("Pedicle screw L2 left"));
        assertEquals("S2AI screw right", ShortName.of("S2 alar-iliac screw right"));
        assertEquals("Body L1", ShortName.of("Vertebral body replacement L1"));
    }

    @Test
    void leavesOtherLabelsAlone() {
        assertEquals("Rod left", ShortName.of("Rod left"));
        assertEquals("", ShortName.of(""));
    }

    @Test
    void neverTurnsTwoPartsIntoOne() {
        List<ConstructPart> parts = ConstructPart.of(SampleSubject.construct());
        Set<String> names =
                parts.stream().map(part -> ShortName.of(part.label())).collect(Collectors.toSet());
        assertEquals(parts.size(), names.size());
        parts.forEach(part ->
                assertTrue(ShortName.of(part.label()).length() <= part.label().length(), part.label()));
    }
}
