package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import org.holdfast.volume.Slab;
import org.junit.jupiter.api.Test;

class SlabChoiceTest {

    @Test
    void beginsWithThePlaneAlone() {
        assertEquals("plane", SlabChoice.all().get(0).words());
        assertEquals(Optional.empty(), SlabChoice.all().get(0).slab());
    }

    @Test
    void offersMeansAndMaximaUnderWordsOfTheirOwn() {
        List<String> words = SlabChoice.all().stream().map(SlabChoice::words).toList();
        assertEquals(words.size(), new HashSet<>(words).size());
        assertTrue(words.contains("mean of 5\u2009mm"), words::toString);
        assertTrue(words.contains("maximum of 20\u2009mm"), words::toString);
    }

    @Test
    void isFoundAgainByItsLayer() {
        Optional<Slab> slab = Optional.of(new Slab(10, Slab.Projection.MAXIMUM));
        assertTrue(SlabChoice.all().contains(SlabChoice.of(slab)));
        assertTrue(SlabChoice.all().contains(SlabChoice.of(Optional.empty())));
        assertEquals(SlabChoice.of(slab).words(), SlabChoice.of(slab).toString());
    }
}
