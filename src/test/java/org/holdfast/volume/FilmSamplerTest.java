package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class FilmSamplerTest {

    private static final float NONE = Float.NaN;

    private static Radiograph withPadding(int columns, int... stored) {
        return TestFilms.film(
                TestFilms.facts(
                        columns,
                        stored.length / columns,
                        ModalityTransform.NONE,
                        List.of(),
                        false,
                        Optional.of(new PaddingRange(0, 0))),
                stored);
    }

    @Test
    void pixelForPixelIsTheFilm() {
        Radiograph film = TestFilms.film(3, 1, 2, 3, 4, 5, 6);
        assertArrayEquals(new float[] {1, 2, 3, 4, 5, 6}, FilmSampler.sample(film, new FilmFrame(3, 2, 0, 0, 1, 1)));
    }

    @Test
    void smallerIsTheMeanOfWhatAPixelCovers() {
        Radiograph film = TestFilms.film(4, 10, 20, 30, 40, 50, 60, 70, 80);
        // By hand: a pixel of 2 × 2 around (0.5, 0.5): (10 + 20 + 50 + 60) / 4; the next: (30 + 40 + 70 + 80) / 4
        assertArrayEquals(new float[] {35, 55}, FilmSampler.sample(film, new FilmFrame(2, 1, 0.5, 0.5, 2, 2)));
        // By hand: 1.5 columns from the left edge: (10 + 20 / 2) / 1.5, of one row
        assertEquals(20 / 1.5f, FilmSampler.sample(film, new FilmFrame(1, 1, 0.25, 0, 1.5, 1))[0], 1e-5);
    }

    @Test
    void largerIsLinearBetweenCentresAndFlatAtTheEdge() {
        Radiograph film = TestFilms.film(2, 10, 20, 30, 40);
        float[] row = FilmSampler.sample(film, new FilmFrame(8, 1, -0.75, 0, 0.25, 0.25));
        // By hand: columns −0.75 (outside), −0.5, −0.25, 0, 0.25, 0.5, 0.75, 1
        assertArrayEquals(new float[] {NONE, 10, 10, 10, 12.5f, 15, 17.5f, 20}, row);
        // By hand: the middle of four
        assertEquals(25, FilmSampler.sample(film, new FilmFrame(1, 1, 0.5, 0.5, 0.5, 0.5))[0]);
    }

    @Test
    void paddingHasNoWeight() {
        Radiograph film = withPadding(4, 0, 100, 0, 0);
        // By hand: of columns 0 and 1 half carries an image; of 2 and 3 none does
        assertArrayEquals(new float[] {100, NONE}, FilmSampler.sample(film, new FilmFrame(2, 1, 0.5, 0, 2, 1)));
        // By hand: at 0.25 a quarter of the weight carries an image, at 0.75 three quarters
        assertArrayEquals(new float[] {NONE, 100}, FilmSampler.sample(film, new FilmFrame(2, 1, 0.25, 0, 0.5, 1)));
    }

    @Test
    void outsideIsNoImage() {
        float[] beside = FilmSampler.sample(TestFilms.film(2, 1, 2, 3, 4), new FilmFrame(3, 3, 50, 50, 3, 3));
        for (float value : beside) {
            assertTrue(Float.isNaN(value));
        }
    }

    @Test
    void meanIsKeptWhenMadeSmaller() {
        Random random = new Random(7);
        int[] stored = random.ints(60 * 45, 0, 4096).toArray();
        Radiograph film = TestFilms.film(60, stored);
        double mean = java.util.Arrays.stream(stored).average().orElseThrow();
        float[] small = FilmSampler.sample(
                film, new FilmFrame(7, 4, 60 / 7.0 / 2 - 0.5, 45 / 4.0 / 2 - 0.5, 60 / 7.0, 45 / 4.0));
        double sum = 0;
        for (float value : small) {
            sum += value;
        }
        // Floats of 12 bits are exact to 2.5e-4; the mean of equal parts of the whole is the mean of the whole.
        assertEquals(mean, sum / small.length, 5e-4);
    }
}
