package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.construct.CutAxes;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Slab;
import org.junit.jupiter.api.Test;

class ReviewStateTest {

    private static final HuWindow BONE = new HuWindow(400, 1800);
    private static final HuWindow METAL = new HuWindow(1500, 6000);
    private static final CutLook LOOK = CutLook.fitted(new PatientPoint(1, 2, 3), BONE);
    private static final CutLook OTHER = CutLook.fitted(new PatientPoint(4, 5, 6), METAL);

    private final ReviewState first = ReviewState.first("screw", 2, LOOK);

    private static ImageMark mark(String id, double toX) {
        MarkPlace place = new MarkPlace(
                "screw",
                0,
                new PatientPoint(0, 0, 0),
                new CutAxes(PatientVector.LEFT, PatientVector.POSTERIOR),
                Optional.empty());
        return new ImageMark.LengthMark(id, place, new PatientPoint(0, 0, 0), new PatientPoint(toX, 0, 0));
    }

    @Test
    void linkedExamsAreLookedAtAlike() {
        ReviewState next = first.withLook(1, OTHER);
        assertEquals(OTHER, next.lookOf(0));
        assertEquals(OTHER, next.lookOf(1));
    }

    @Test
    void freeExamsAreLookedAtEachByItself() {
        ReviewState next = first.withLinked(false).withLook(1, OTHER);
        assertEquals(LOOK, next.lookOf(0));
        assertEquals(OTHER, next.lookOf(1));
    }

    @Test
    void linkingTakesTheChosenExamsLookForAll() {
        ReviewState free = first.withLinked(false).withLook(2, OTHER);
        ReviewState linked = free.withLinked(true);
        assertEquals(OTHER, linked.lookOf(0));
        assertEquals(OTHER, linked.lookOf(2));
        assertEquals(Map.of(), linked.own());
    }

    @Test
    void anotherPartIsLookedAtAnewThroughTheSameWindows() {
        ReviewState free = first.withLinked(false).withLook(1, OTHER);
        CutLook anew = CutLook.fitted(new PatientPoint(7, 8, 9), BONE);
        ReviewState next = free.withPart("rod", anew);
        assertEquals("rod", next.partId());
        assertEquals(anew, next.lookOf(0));
        assertEquals(anew.through(METAL), next.lookOf(1));
        assertEquals(2, next.exam());
    }

    @Test
    void marksKeepTheirOrderWhenOneChanges() {
        ImageMark one = mark("1", 0);
        ImageMark two = mark("2", 0);
        ReviewState both = first.withMark(one).withMark(two);
        ImageMark longer = mark("1", 5);
        assertEquals(List.of(longer, two), both.withMarkChanged(longer).marks());
        assertEquals(List.of(two), both.withoutMark(longer).marks());
        assertEquals(both, both.withMarkChanged(mark("3", 1)));
    }

    @Test
    void actsLeaveAllElseAsItWas() {
        Slab slab = new Slab(5, Slab.Projection.MEAN);
        ReviewState next = first.withMark(mark("1", 0))
                .withSlab(Optional.of(slab))
                .withExam(0)
                .withLook(0, OTHER)
                .withLinked(false);
        assertEquals(
                new ReviewState("screw", 0, false, OTHER, Map.of(), Optional.of(slab), List.of(mark("1", 0))), next);
    }

    @Test
    void refusesLinkedExamsWithLooksOfTheirOwn() {
        assertThrows(
                IllegalArgumentException.class,
                () -> new ReviewState("screw", 0, true, LOOK, Map.of(1, OTHER), Optional.empty(), List.of()));
    }

    @Test
    void magnificationStaysWithinItsLimits() {
        PatientVector pan = new PatientVector(1, 0, 0);
        assertEquals(CutLook.MAX_ZOOM, LOOK.framed(1000, pan).zoom());
        assertEquals(CutLook.MIN_ZOOM, LOOK.framed(0.001, pan).zoom());
        assertEquals(LOOK, LOOK.framed(3, pan).fitted());
        assertThrows(IllegalArgumentException.class, () -> new CutLook(LOOK.crossing(), Double.NaN, pan, BONE));
    }
}
