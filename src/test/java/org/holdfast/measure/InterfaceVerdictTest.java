package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.TreeMap;
import org.holdfast.construct.Component;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Material;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.LossyCompression;
import org.junit.jupiter.api.Test;

/** What can be asked of an interface, by material, day and kind of scan, and by what the measurement shows. */
class InterfaceVerdictTest {

    private static final MeasurementSettings SETTINGS = MeasurementSettings.withDefaults();
    private static final ProfileModel MODEL = new ProfileModel(2100, 30, 700, 0.8, 260, 0.42);
    /** The layered face's body goes in on this day. */
    private static final LocalDate IMPLANTED = LocalDate.of(2030, 1, 1);

    private final LayeredFace layered = new LayeredFace(MODEL);
    private final HuVolume volume = layered.exam((x, y) -> 0).volume();

    private Verdict before(LayeredFace face, Component component, Acquisition acquisition) {
        return InterfaceVerdict.before(face.face(), component, face.exam(volume, acquisition));
    }

    private Verdict before(Acquisition acquisition) {
        return before(layered, layered.construct.component("body"), acquisition);
    }

    private Component removedOn(LocalDate day) {
        Component body = layered.construct.component("body");
        return new Component(
                body.id(),
                body.number(),
                body.label(),
                body.kind(),
                body.material(),
                body.implantedOn(),
                Optional.of(day),
                body.porous(),
                body.shape());
    }

    @Test
    void anImplantCanBeAskedForFromItsOperationOn() {
        assertEquals(Verdict.answerable(), before(Acquisitions.on(IMPLANTED)));
        Verdict early = before(Acquisitions.on(IMPLANTED.minusDays(1)));
        assertEquals(Verdict.Value.NOT_ANSWERABLE, early.value());
        assertEquals(List.of("vertebral body was not in the patient on 2029-12-31"), early.causes());
    }

    @Test
    void anImplantCanBeAskedForUntilItIsRemoved() {
        Component removed = removedOn(LocalDate.of(2031, 6, 1));
        assertEquals(
                Verdict.Value.ANSWERABLE,
                before(layered, removed, Acquisitions.on(LocalDate.of(2031, 5, 31)))
                        .value());
        assertEquals(
                Verdict.Value.NOT_ANSWERABLE,
                before(layered, removed, Acquisitions.on(LocalDate.of(2031, 6, 2)))
                        .value());
    }

    @Test
    void anUndatedExamIsTakenToShowTheImplant() {
        assertEquals(Verdict.answerable(), before(Acquisition.unknown()));
    }

    @Test
    void coneBeamAndArtefactReductionLeaveItToAReader() {
        Verdict cone = before(Acquisitions.of(Optional.empty(), Known.UNKNOWN, Known.YES));
        assertEquals(Verdict.Value.READER_ONLY, cone.value());
        assertTrue(cone.causes().get(0).contains("cone-beam"));
        Verdict reduced = before(Acquisitions.of(Optional.empty(), Known.YES, Known.NO));
        assertEquals(Verdict.Value.READER_ONLY, reduced.value());
        assertTrue(reduced.causes().get(0).contains("artefact-reduced"));
        assertEquals(
                2,
                before(Acquisitions.of(Optional.empty(), Known.YES, Known.YES))
                        .causes()
                        .size());
        assertEquals(Verdict.answerable(), before(Acquisitions.of(Optional.empty(), Known.NO, Known.NO)));
    }

    @Test
    void lossOfDetailIsToldAndRefusesNothing() {
        LossyCompression loss = new LossyCompression("", OptionalDouble.of(10), OptionalInt.of(3));
        Verdict verdict = before(Acquisitions.lossy(Optional.of(IMPLANTED), loss));
        assertEquals(Verdict.Value.ANSWERABLE, verdict.value());
        assertEquals(
                List.of("images compressed with loss (10.0 : 1, off by at most 3): HU may be off"), verdict.causes());
    }

    @Test
    void fillerAllowsChangeOnlyAndTheLesserVerdictWins() {
        LayeredFace grafted = new LayeredFace(MODEL, Filler.AUTOGRAFT, Material.TITANIUM_POROUS);
        Component body = grafted.construct.component("body");
        Verdict filled = before(grafted, body, Acquisition.unknown());
        assertEquals(Verdict.Value.CHANGE_ONLY, filled.value());
        assertTrue(filled.causes().get(0).contains("mineral, graft included"));
        Verdict both = before(grafted, body, Acquisitions.of(Optional.empty(), Known.YES, Known.NO));
        assertEquals(Verdict.Value.READER_ONLY, both.value());
        assertEquals(2, both.causes().size());
    }

    @Test
    void materialWithoutMetalEdgeIsForAReader() {
        for (Material material : List.of(Material.PEEK, Material.CARBON)) {
            LayeredFace face = new LayeredFace(MODEL, Filler.NONE, material);
            Verdict verdict = before(face, face.construct.component("body"), Acquisition.unknown());
            assertEquals(Verdict.Value.READER_ONLY, verdict.value());
            assertTrue(verdict.causes().get(0).contains("no metal edge"));
        }
    }

    @Test
    void nothingAssessableIsNotAnswerable() {
        Verdict verdict = after(1, Map.of(Obstacle.DARK_STREAK, 0.4, Obstacle.NO_METAL, 0.6), Stated.of(1.4), 1.5);
        assertEquals(Verdict.Value.NOT_ANSWERABLE, verdict.value());
        assertEquals(List.of(Obstacle.NO_METAL.words()), verdict.causes());
    }

    @Test
    void tieBetweenCausesIsSettledByTheirOrder() {
        Map<Obstacle, Double> tie = Map.of(Obstacle.OUTSIDE_IMAGE, 0.5, Obstacle.NO_METAL, 0.5);
        Verdict verdict = after(1, tie, Stated.of(1.4), 1.5);
        assertEquals(List.of(Obstacle.NO_METAL.words()), verdict.causes());
    }

    @Test
    void underHalfAssessableIsForAReader() {
        Map<Obstacle, Double> streak = Map.of(Obstacle.DARK_STREAK, 0.51);
        assertEquals(
                Verdict.Value.READER_ONLY,
                after(0.51, streak, Stated.of(1.4), 1.5).value());
        assertEquals(
                Verdict.Value.ANSWERABLE,
                after(0.5, streak, Stated.of(1.4), 1.5).value());
    }

    @Test
    void estimatorThatDoesNotApplyIsForAReader() {
        Verdict verdict = after(0, Map.of(), Stated.not("bone below threshold beyond guard"), 0);
        assertEquals(Verdict.Value.READER_ONLY, verdict.value());
        assertEquals(List.of("bone below threshold beyond guard"), verdict.causes());
    }

    @Test
    void limitThatHingesOnTheBlurAllowsChangeOnly() {
        Verdict verdict = after(0, Map.of(), Stated.of(1.4), 2.25);
        assertEquals(Verdict.Value.CHANGE_ONLY, verdict.value());
        assertTrue(
                verdict.causes().get(0).contains("1.40 mm, or 2.25 mm"),
                verdict.causes().toString());
    }

    @Test
    void frontThatIsNotSeenAllowsChangeOnly() {
        Verdict verdict =
                after(0, Map.of(), Stated.of(1.2), 1.25, Stated.not("too few profiles show it"), Stated.of(210));
        assertEquals(Verdict.Value.CHANGE_ONLY, verdict.value());
        assertEquals(
                List.of("the smallest visible gap may be larger than stated: too few profiles show it"),
                verdict.causes());
    }

    @Test
    void hostNoBrighterThanMuscleMayBeNoBone() {
        Verdict soft = after(0, Map.of(), Stated.of(1.4), 1.5, Stated.of(600), Stated.of(51));
        assertEquals(Verdict.Value.CHANGE_ONLY, soft.value());
        assertTrue(
                soft.causes().get(0).startsWith("host bone reads 51 HU"),
                soft.causes().toString());
        assertEquals(
                2,
                after(0, Map.of(), Stated.of(1.4), 2.25, Stated.of(600), Stated.of(51))
                        .causes()
                        .size());
        // Source: measurement definitions, section 1: muscle reads 0 to 90 HU.
        assertEquals(
                Verdict.Value.CHANGE_ONLY,
                after(0, Map.of(), Stated.of(1.4), 1.5, Stated.of(600), Stated.of(90))
                        .value());
        assertEquals(Verdict.answerable(), after(0, Map.of(), Stated.of(1.4), 1.5, Stated.of(600), Stated.of(91)));
    }

    private static Verdict after(
            double notAssessable, Map<Obstacle, Double> obstacles, Stated limit, double ifBlurrierMm) {
        return after(notAssessable, obstacles, limit, ifBlurrierMm, Stated.of(600), Stated.of(210));
    }

    private static Verdict after(
            double notAssessable,
            Map<Obstacle, Double> obstacles,
            Stated limit,
            double ifBlurrierMm,
            Stated frontHu,
            Stated host) {
        Stated none = Stated.not("not needed here");
        OptionalDouble no = OptionalDouble.empty();
        ThresholdContact.Spread empty = new ThresholdContact.Spread(no, no, no, no);
        boolean settled =
                limit.value().isPresent() && ifBlurrierMm - limit.value().getAsDouble() < 0.2;
        ThresholdContact contact = new ThresholdContact(
                none,
                0,
                notAssessable,
                none,
                none,
                notAssessable,
                obstacles,
                limit,
                limit.value().isPresent() ? Stated.of(ifBlurrierMm) : limit,
                settled,
                new TreeMap<>(),
                none,
                145,
                "fixed",
                host,
                none,
                empty,
                empty,
                0.8,
                none,
                frontHu,
                256,
                List.of());
        return InterfaceVerdict.after(contact, SETTINGS);
    }
}
