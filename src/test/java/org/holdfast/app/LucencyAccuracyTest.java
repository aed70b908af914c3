package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class LucencyAccuracyTest {

    @Test
    void publishedAccuracyFollowsFromTheCounts() {
        LucencyAccuracy published = LucencyAccuracy.PUBLISHED;
        // Source: Wu et al., J Orthop Surg Res 2019;14:6: 17 of 70 and 153 of 156.
        assertEquals(0.2429, published.sensitivity().share(), 5e-5);
        // Source: the same.
        assertEquals(0.9808, published.specificity().share(), 5e-5);
        // By hand: z²/n = 0.054878; (0.242857 + 0.027439 ∓ 0.104133) / 1.054878.
        assertEquals(0.158, published.sensitivity().lower(), 5e-4);
        // By hand: as above.
        assertEquals(0.355, published.sensitivity().upper(), 5e-4);
        assertTrue(published.words().startsWith("absence of a zone does not exclude loosening"));
        assertTrue(published.words().contains("17 of 70 loose screws (24.3 %, 95 % interval 15.8 to 35.5 %)"));
    }
}
