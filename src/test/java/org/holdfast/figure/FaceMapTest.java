package org.holdfast.figure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.app.Caution;
import org.junit.jupiter.api.Test;

final class FaceMapTest {

    /** Two quotients of doubles that should be equal. */
    private static final double ROUNDING = 1e-9;

    @Test
    void givesEachClassItsShareOfTheArea() {
        Face face = face(
                sample(0, 0, 3, new FaceState.Bridged()),
                sample(1, 0, 1, new FaceState.Contact()),
                sample(2, 0, 1, new FaceState.Gap(1.49)),
                sample(3, 0, 1, new FaceState.Gap(1.5)),
                sample(0, 1, 1, new FaceState.Gap(2.5)),
                sample(1, 1, 1, new FaceState.Gap(2.51)),
                sample(2, 1, 1, new FaceState.NoBone()),
                sample(3, 1, 1, new FaceState.NotAssessable("artefact")));
        List<String> words = words(FaceMap.draw(face));
        // By hand: areas 3, 1, 1, 2, 1, 1, 1 of 10; a gap of exactly 1.5 or 2.5 mm is in the middle class.
        assertEquals("30.0 %", after(words, "contact, bridged to the bone"));
        assertEquals("10.0 %", after(words, "contact, no gap visible"));
        assertEquals("10.0 %", after(words, "gap under 1.5 mm"));
        assertEquals("20.0 %", after(words, "gap 1.5 mm to 2.5 mm"));
        assertEquals("10.0 %", after(words, "gap over 2.5 mm"));
        assertEquals("10.0 %", after(words, "no bone within reach"));
        assertEquals("10.0 %", after(words, "not assessable: artefact"));
        assertTrue(words.contains("whole face 10 mm²"));
    }

    @Test
    void namesEveryCauseOnce() {
        Face face = face(
                sample(0, 0, 1, new FaceState.NotAssessable("artefact")),
                sample(1, 0, 1, new FaceState.NotAssessable("no metal")),
                sample(2, 0, 1, new FaceState.NotAssessable("artefact")));
        List<String> words = words(FaceMap.draw(face));
        assertEquals(
                1, words.stream().filter("not assessable: artefact"::equals).count());
        assertEquals(
                1, words.stream().filter("not assessable: no metal"::equals).count());
    }

    @Test
    void drawsTheSecondDirectionUpwardsAndBothAtOneScale() {
        Face face = face(
                sample(0, 0, 1, new FaceState.Contact()),
                sample(3, 0, 1, new FaceState.Contact()),
                sample(0, 2, 1, new FaceState.Contact()));
        List<Mark.Rectangle> cells = FaceMap.draw(face).marks().stream()
                .filter(mark -> mark instanceof Mark.Rectangle box
                        && box.fill().filter(Palette.MAP_CONTACT::equals).isPresent())
                .map(Mark.Rectangle.class::cast)
                .limit(3)
                .toList();
        double pxPerMm = (cells.get(1).x() - cells.get(0).x()) / 3;
        assertTrue(pxPerMm > 0);
        assertEquals(pxPerMm, (cells.get(0).y() - cells.get(2).y()) / 2, ROUNDING);
    }

    @Test
    void drawsAScaleBarOfARoundLengthAtTheScaleOfTheMap() {
        // By hand: the largest of 1, 2, 5 · 10^n that is not longer.
        assertEquals(5, FaceMap.roundLengthMm(9.9), ROUNDING);
        assertEquals(10, FaceMap.roundLengthMm(10), ROUNDING);
        assertEquals(0.2, FaceMap.roundLengthMm(0.4), ROUNDING);
        Drawing drawing = FaceMap.draw(SampleFace.face());
        Mark.Line bar = drawing.marks().stream()
                .filter(mark -> mark instanceof Mark.Line line && line.stroke().widthPx() == 1.5)
                .map(Mark.Line.class::cast)
                .findFirst()
                .orElseThrow();
        // By hand: the face is 28 mm wide on 460 px; a third of it is 9.3 mm, so the bar is 5 mm.
        assertEquals(5 * 460 / 28.0, bar.to().x() - bar.from().x(), ROUNDING);
        assertTrue(words(drawing).contains("5 mm"));
    }

    @Test
    void showsEdgesAndTheWholeCaution() {
        List<String> words = words(FaceMap.draw(SampleFace.face()));
        assertTrue(words.containsAll(List.of("R", "L", "A", "P")));
        assertTrue(String.join(" ", words).endsWith(Caution.TEXT));
    }

    @Test
    void refusesAFaceThatIsNone() {
        assertThrows(IllegalArgumentException.class, () -> face());
        assertThrows(IllegalArgumentException.class, () -> sample(Double.NaN, 0, 1, new FaceState.Contact()));
        assertThrows(IllegalArgumentException.class, () -> sample(0, 0, -1, new FaceState.Contact()));
        assertThrows(IllegalArgumentException.class, () -> new FaceState.Gap(0));
        assertThrows(IllegalArgumentException.class, () -> new Face.GapLimits(2, 1));
    }

    private static Face face(FaceSample... samples) {
        return new Face("", "", 1, List.of(samples), new Face.Edges("", "", "", ""), Face.GapLimits.USUAL, "");
    }

    private static FaceSample sample(double uMm, double vMm, double areaMm2, FaceState state) {
        return new FaceSample(uMm, vMm, areaMm2, state);
    }

    private static String after(List<String> words, String entry) {
        return words.get(words.indexOf(entry) + 1);
    }

    private static List<String> words(Drawing drawing) {
        return drawing.marks().stream()
                .filter(Mark.Words.class::isInstance)
                .map(mark -> ((Mark.Words) mark).text())
                .toList();
    }
}
