package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import org.holdfast.geometry.PatientPoint;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The order of a review and the frames of its parts, on the construct of the sample images. */
final class ConstructPartTest {

    /** Cosine of 15 degrees: the construct of the sample images leans by a few degrees. */
    private static final double NEARLY = 0.965;

    private static Construct construct;
    private static List<ConstructPart> parts;

    @BeforeAll
    static void read() throws ConstructReadException {
        construct = ConstructJson.read(Path.of("sample-images/demo-subject/construct.json"));
        parts = ConstructPart.of(construct);
    }

    @Test
    void goesFromHeadToFootAndFromRightToLeft() {
        assertEquals(
                List.of(
                        "screw-t12-right",
                        "screw-t12-left",
                        "cranial-face",
                        "rod-right",
                        "body-l1",
                        "rod-left",
                        "caudal-face",
                        "screw-l2-right",
                        "screw-l2-left"),
                parts.stream().map(ConstructPart::id).toList());
        assertEquals(
                IntStream.rangeClosed(1, 9).boxed().toList(),
                parts.stream().map(ConstructPart::number).toList());
    }

    @Test
    void everyFrameIsThreeViewsAtRightAngles() {
        for (ConstructPart part : parts) {
            PartFrame frame = part.frame();
            double alongAcross =
                    Math.abs(frame.along().normal().dot(frame.across().normal()));
            double alongFace =
                    Math.abs(frame.along().normal().dot(frame.faceOn().normal()));
            double acrossFace =
                    Math.abs(frame.across().normal().dot(frame.faceOn().normal()));
            assertEquals(0, alongAcross + alongFace + acrossFace, 1e-9, part.id());
        }
    }

    @Test
    void faceIsCutAlongItsNormalWithTheHeadUpAndTheRightOnTheLeft() {
        PartFrame frame = part("cranial-face").frame();
        assertTrue(frame.along().down().dot(construct.axes().cranial()) < -NEARLY);
        assertTrue(frame.along().right().dot(construct.axes().left()) > NEARLY);
        assertTrue(frame.across().down().dot(construct.axes().cranial()) < -NEARLY);
        assertTrue(frame.across().right().dot(construct.axes().posterior()) > NEARLY);
        assertTrue(frame.faceOn().right().dot(construct.axes().left()) > NEARLY);
        assertTrue(frame.faceOn().down().dot(construct.axes().posterior()) > NEARLY);
    }

    @Test
    void caudalFaceIsSeenTheSameWayRoundAlthoughItsNormalPointsDown() {
        assertTrue(
                part("caudal-face").frame().along().down().dot(construct.axes().cranial()) < -NEARLY);
        assertTrue(
                part("caudal-face").frame().faceOn().down().dot(construct.axes().posterior()) > NEARLY);
    }

    @Test
    void screwLiesInItsCutAlongAndIsSeenEndOnAcross() {
        ConstructPart part = part("screw-t12-left");
        ScrewShape screw = (ScrewShape) construct.component(part.id()).shape();
        assertEquals(0, part.frame().along().normal().dot(screw.direction()), 1e-9);
        assertEquals(1, Math.abs(part.frame().across().normal().dot(screw.direction())), 1e-9);
        assertTrue(part.frame().across().down().dot(construct.axes().cranial()) < -0.5);
        assertTrue(part.frame().halfWidthMm() >= screw.lengthMm() / 2);
    }

    @Test
    void rodIsSeenFromTheSideInItsCutAlong() {
        PartFrame frame = part("rod-left").frame();
        assertTrue(Math.abs(frame.along().normal().dot(construct.axes().left())) > NEARLY);
        assertTrue(frame.halfHeightMm() > frame.halfWidthMm());
    }

    @Test
    void middleOfARodHasHalfOfItsLengthOnEitherSide() {
        RodShape rod = (RodShape) construct.component("rod-left").shape();
        PatientPoint middle = part("rod-left").frame().middle();
        double before = 0;
        for (int n = 1; n < rod.points().size(); n++) {
            PatientPoint from = rod.points().get(n - 1);
            PatientPoint to = rod.points().get(n);
            double pieceMm = to.minus(from).norm();
            double detourMm = middle.minus(from).norm() + to.minus(middle).norm() - pieceMm;
            if (detourMm < 1e-9) {
                before += middle.minus(from).norm();
                break;
            }
            before += pieceMm;
        }
        assertEquals(rod.lengthMm() / 2, before, 1e-6);
    }

    private static ConstructPart part(String id) {
        return parts.stream().filter(part -> part.id().equals(id)).findFirst().orElseThrow();
    }
}
