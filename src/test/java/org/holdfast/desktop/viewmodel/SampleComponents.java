package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamResult;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ChangeMap;
import org.holdfast.measure.ChangeReading;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.FittedReading;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Migration;
import org.holdfast.measure.PorousFill;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.ScrewLucency;
import org.holdfast.measure.ScrewLucency.Sector;
import org.holdfast.measure.ScrewLucency.Station;
import org.holdfast.measure.ScrewLucency.Zone;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Tissue;
import org.holdfast.measure.Verdict;

/** Results of screws, rods and bodies by hand, as a measurement would give them. */
public final class SampleComponents {

    static final double LIMIT_MM = 1;

    private SampleComponents() {}

    /** A zone of one width all round and along, with one place where nothing can be said. */
    public static Zone zone(ScrewShape screw, double widthMm, double visibleMm, boolean isNew) {
        List<Station> stations = new ArrayList<>();
        List<Sector> sectors = new ArrayList<>();
        for (double at = screw.inBoneFromMm() + 0.5; at < screw.inBoneToMm(); at++) {
            double share = (at - screw.inBoneFromMm()) / (screw.inBoneToMm() - screw.inBoneFromMm());
            double here = widthMm * (1 - 0.6 * share);
            stations.add(new Station(at, Stated.of(here), Stated.of(1.2 * here), Stated.of(0.2), false));
            for (int n = 0; n < 12; n++) {
                boolean isHidden = n == 4 && share > 0.7;
                sectors.add(new Sector(
                        at,
                        1,
                        15 + 30 * n,
                        30,
                        isHidden
                                ? OptionalDouble.empty()
                                : OptionalDouble.of(here * (1 + 0.2 * Math.cos(Math.toRadians(30 * n)))),
                        isHidden ? OptionalDouble.empty() : OptionalDouble.of(0.3),
                        isHidden ? "streak" : ""));
            }
        }
        boolean isOver = widthMm > LIMIT_MM;
        return new Zone(
                Stated.of(widthMm),
                Stated.of(0.2),
                Stated.of(1.2 * widthMm),
                Stated.of(isOver ? 12 : 0),
                Stated.of(isOver ? 0.4 : 0),
                0.03,
                Stated.of(0.2),
                Stated.of(visibleMm),
                Stated.of(isNew ? widthMm - 0.1 : 0),
                Stated.of(0.25),
                isOver,
                isNew,
                stations,
                sectors);
    }

    public static ComponentExam screw(Component screw, String exam, Answer<Zone> zone) {
        return new ComponentExam(
                screw,
                exam,
                Verdict.answerable(),
                Answer.of(new ScrewLucency(zone, Answer.not("threshold is blind here"))),
                Answer.of(whole(screw, List.of())),
                List.of(within("l2")),
                "key");
    }

    public static ComponentExam rod(Component rod, String exam, List<Continuity.Break> breaks) {
        return new ComponentExam(
                rod,
                exam,
                Verdict.answerable(),
                Answer.not("no screw"),
                Answer.of(whole(rod, breaks)),
                List.of(),
                "key");
    }

    public static Continuity.Break broken(Component rod, double gapMm, Continuity.Status status) {
        return new Continuity.Break(
                0.42 * length(rod),
                middle(rod),
                Stated.of(gapMm),
                Stated.not("the cut's tilt cannot be fitted"),
                Stated.of(0.3),
                Stated.of(2.1),
                gapMm > 1,
                status);
    }

    static Continuity whole(Component part, List<Continuity.Break> breaks) {
        List<Continuity.Station> stations = new ArrayList<>();
        double length = length(part);
        PatientPoint from = point(part, 0);
        PatientVector way = point(part, 1).minus(from);
        for (double at = 0; at <= length; at += 0.25) {
            double nearest = Double.POSITIVE_INFINITY;
            for (Continuity.Break each : breaks) {
                nearest = Math.min(nearest, Math.abs(at - each.atMm()));
            }
            double core = 8500 - 6000 * Math.exp(-nearest * nearest);
            boolean isJoint = Math.abs(at - 10) < 3 || Math.abs(at - length + 10) < 3;
            stations.add(
                    new Continuity.Station(at, from.along(way.unit(), at), 23.8 + (isJoint ? 30 : 0), core, isJoint));
        }
        return new Continuity(breaks, Stated.of(0.5), Optional.of(0.4), false, Stated.of(8500), false, stations);
    }

    private static PatientPoint point(Component part, double share) {
        if (part.shape() instanceof ScrewShape screw) {
            return screw.head().towards(screw.tip(), share);
        }
        RodShape rod = (RodShape) part.shape();
        return rod.points().get(0).towards(rod.points().get(rod.points().size() - 1), share);
    }

    private static PatientPoint middle(Component part) {
        return point(part, 0.42);
    }

    private static double length(Component part) {
        return point(part, 0).distanceTo(point(part, 1));
    }

    public static Migration within(String bone) {
        return motion(bone, 0.1);
    }

    /** Subsidence by so much with a repeatability of 0.3 mm. */
    public static Migration motion(String bone, double intoMm) {
        return new Migration(
                bone,
                Answer.of(new Migration.Motion(
                        new PatientVector(0.05, -0.04, -intoMm),
                        new PatientVector(0.1, 0.2, 0),
                        Stated.of(intoMm),
                        Stated.not("no screw"),
                        0.3,
                        0.5,
                        "simulated repeats, a lower bound",
                        Math.abs(intoMm) <= 0.3)));
    }

    public static ComponentExam body(Component body, String exam, List<Migration> migration) {
        return new ComponentExam(
                body, exam, Verdict.answerable(), Answer.not("no screw"), Answer.not("no rod"), migration, "key");
    }

    /** A report with a course of all components: one rod breaks, one screw loosens, the body subsides. */
    public static ContactReport course(ContactReport all) {
        List<ExamResult> exams = new ArrayList<>();
        for (int n = 0; n < all.exams().size(); n++) {
            ExamResult exam = all.exams().get(n);
            int at = n;
            exams.add(new ExamResult(
                    exam.label(),
                    exam.seriesUid(),
                    exam.seriesSha256(),
                    exam.daysSinceSurgery(),
                    exam.isReference(),
                    exam.comparability(),
                    exam.poses(),
                    exam.poseSource(),
                    exam.pointSpread(),
                    exam.parts().stream()
                            .map(part -> fitted(part, exam.isReference()))
                            .toList(),
                    components(all.construct(), exam.label(), at),
                    exam.findings()));
        }
        return new ContactReport(all.construct(), all.settings(), exams, all.films(), all.findings());
    }

    private static List<ComponentExam> components(Construct construct, String exam, int n) {
        double[] widths = {0.1, 0.3, 1.3, 1.9, 2.9};
        double[] into = {0, 0.05, 0.1, 0.15, 0.5};
        List<ComponentExam> all = new ArrayList<>();
        for (Component part : construct.components()) {
            if (part.shape() instanceof ScrewShape screw) {
                boolean isLoose = part.id().equals("screw-l2-left");
                all.add(
                        part.id().equals("screw-t12-left") && n == 1
                                ? screw(part, exam, Answer.not("streaks over most of the surface"))
                                : screw(
                                        part,
                                        exam,
                                        Answer.of(zone(screw, isLoose ? widths[n] : 0.1, 0.6, isLoose && n > 1))));
            } else if (part.kind().isRod()) {
                boolean isRight = part.id().equals("rod-right");
                List<Continuity.Break> breaks = isRight && n > 2
                        ? List.of(broken(part, n == 3 ? 0.9 : 1.6, Continuity.Status.CONFIRMED))
                        : !isRight && n == 3 ? List.of(broken(part, 0.6, Continuity.Status.UNCONFIRMED)) : List.of();
                all.add(rod(part, exam, breaks));
            } else {
                all.add(body(part, exam, n == 0 ? List.of() : List.of(motion("l2", into[n]), within("t12"))));
            }
        }
        return all;
    }

    /** Contact by fit a little above that by threshold, and a change map by halves. */
    public static InterfaceExam fitted(InterfaceExam part, boolean isReference) {
        ThresholdContact c = part.contact().orElseThrow();
        double fraction = Math.min(1, c.fraction().value().orElse(0.5) + 0.05);
        FittedContact fit = new FittedContact(
                Stated.of(fraction),
                Stated.of(fraction - 0.02),
                Stated.of(Math.min(1, fraction + 0.03)),
                Stated.of(fraction),
                Stated.of(0.9 * fraction),
                0.05,
                Map.of(),
                Stated.of(0.42),
                c.gapMm(),
                Stated.of(0.12),
                c.boneHu(),
                c.areaMm2(),
                c.readings().stream().map(SampleComponents::fitted).toList());
        ChangeMap change = new ChangeMap(
                0.3,
                0.2,
                0.4,
                0.1,
                35,
                "solid parts of the construct",
                100,
                0.05,
                Stated.of(-6),
                0.8,
                2.8,
                c.readings().stream().map(SampleComponents::change).toList());
        return new InterfaceExam(
                part.face(),
                part.examLabel(),
                part.verdict(),
                part.contact(),
                Answer.of(fit),
                isReference
                        ? PorousFill.not("the reference exam itself")
                        : new PorousFill(Stated.of(0.12), Stated.of(0.04), Stated.of(-6), "muscle"),
                isReference ? Answer.not("the reference exam itself") : Answer.of(change),
                part.key());
    }

    private static FittedReading fitted(SampleReading r) {
        boolean isAssessed = r.tissue() != Tissue.NOT_ASSESSABLE;
        return new FittedReading(
                r.sample(),
                r.tissue(),
                r.obstacle(),
                r.edgeMm(),
                r.tissue() == Tissue.CONTACT ? OptionalDouble.of(0.2) : r.gapMm(),
                isAssessed ? OptionalDouble.of(0.1) : OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                r.isOppositeHostBone(),
                r.isBridged());
    }

    private static ChangeReading change(SampleReading r) {
        double u = r.sample().uMm();
        double v = r.sample().vMm();
        ChangeReading.Kind kind = u * u + v * v > 110
                ? ChangeReading.Kind.NOT_COMPARABLE
                : u > 4 ? ChangeReading.Kind.MORE : v > 3 ? ChangeReading.Kind.LESS : ChangeReading.Kind.NONE;
        boolean isCompared = kind != ChangeReading.Kind.NOT_COMPARABLE;
        return new ChangeReading(
                r.sample(),
                kind,
                isCompared ? OptionalDouble.of(10 * u) : OptionalDouble.empty(),
                isCompared ? OptionalDouble.of(35) : OptionalDouble.empty());
    }
}
