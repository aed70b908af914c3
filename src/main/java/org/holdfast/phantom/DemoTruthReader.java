package org.holdfast.phantom;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/** Reads the truth of a stage from its scene, by walks through it. */
final class DemoTruthReader {

    private static final double[] LIMITS_MM = {0.3, 0.5, 0.7, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0};
    private static final double DEEPEST_GAP_MM = 8;
    private static final double WIDEST_ZONE_MM = 8;
    private static final int DIRECTIONS = 24;
    private static final double STATION_MM = 1;
    private static final double END_LEFT_OUT_MM = 2;
    /** A walk starts so far off a surface. */
    private static final double OFF_SURFACE_MM = 1e-6;

    private final DemoStage stage;
    private final Scene scene;
    private final RigidTransform sceneToReference;

    private DemoTruthReader(DemoStage stage, RigidTransform sceneToReference) {
        this.stage = stage;
        this.scene = DemoScene.of(stage);
        this.sceneToReference = sceneToReference;
    }

    static DemoTruth.ExamTruth read(DemoStage stage, RigidTransform sceneToReference, RigidTransform sceneToExam) {
        DemoTruthReader reader = new DemoTruthReader(stage, sceneToReference);
        return new DemoTruth.ExamTruth(
                stage.label,
                sceneToReference.inverse().then(sceneToExam),
                List.of(
                        reader.face(DemoConstruct.CRANIAL_FACE, DemoParts.CRANIAL_FACE, "T12", true),
                        reader.face(DemoConstruct.CAUDAL_FACE, DemoParts.CAUDAL_FACE, "L2", false)),
                Arrays.stream(DemoParts.Screw.values()).map(reader::screw).toList(),
                reader.breaks(),
                reader.migration());
    }

    /** The gap of each area is what a walk from the middle of the area finds. */
    private DemoTruth.InterfaceTruth face(String id, FaceFrame face, String bone, boolean isCranial) {
        GapPattern layout = isCranial ? stage.cranialGaps(face) : stage.caudalGaps(face);
        double[] u = layout.uLinesMm();
        double[] v = layout.vLinesMm();
        double[][] gaps = new double[u.length - 1][v.length - 1];
        double mean = 0;
        double widest = 0;
        for (int a = 0; a < gaps.length; a++) {
            for (int b = 0; b < gaps[a].length; b++) {
                double middleU = 0.5 * (u[a] + u[a + 1]);
                double middleV = 0.5 * (v[b] + v[b + 1]);
                gaps[a][b] = stated(SceneProbe.wayTo(
                                scene,
                                face.point(middleU, middleV, OFF_SURFACE_MM),
                                face.normal(),
                                name -> DemoScene.isBone(name, bone),
                                DEEPEST_GAP_MM)
                        .orElseThrow());
                mean += gaps[a][b] * (u[a + 1] - u[a]) * (v[b + 1] - v[b]) / face.areaMm2();
                widest = Math.max(widest, gaps[a][b]);
            }
        }
        GapPattern pattern = new GapPattern(u, v, gaps);
        SortedMap<Double, Double> under = new TreeMap<>();
        for (double limit : LIMITS_MM) {
            under.put(limit, pattern.shareUnder(limit));
        }
        return new DemoTruth.InterfaceTruth(
                id, pattern, pattern.contactShare(), under, Math.rint(1e4 * mean) / 1e4, widest);
    }

    /** The zone around the part of a screw that lies beyond a break, or around the whole screw. */
    private DemoTruth.ScrewTruth screw(DemoParts.Screw screw) {
        RigidTransform moved = DemoScene.screwEnd(screw, stage);
        PatientVector axis = moved.apply(screw.direction());
        PatientVector across = axis.anyPerpendicular();
        PatientVector third = axis.cross(across);
        double[] inBone = DemoConstruct.inBoneMm(screw);
        double from = inBone[0] + END_LEFT_OUT_MM;
        for (DemoTruth.BreakTruth broken : breaks()) {
            from = broken.component().equals(screw.id) ? Math.max(from, broken.atMm() + END_LEFT_OUT_MM) : from;
        }
        double sum = 0;
        double widest = 0;
        int count = 0;
        for (double at = from; at <= inBone[1] - END_LEFT_OUT_MM; at += STATION_MM) {
            PatientPoint centre = moved.apply(screw.head.along(screw.direction(), at));
            for (int n = 0; n < DIRECTIONS; n++) {
                double angle = 2 * Math.PI * n / DIRECTIONS;
                PatientVector out = across.times(Math.cos(angle)).plus(third.times(Math.sin(angle)));
                OptionalDouble zone = SceneProbe.wayTo(
                        scene,
                        centre.along(out, 0.5 * screw.diameterMm + OFF_SURFACE_MM),
                        out,
                        name -> DemoScene.isBone(name, screw.bone),
                        WIDEST_ZONE_MM);
                if (zone.isPresent()) {
                    sum += stated(zone.getAsDouble());
                    widest = Math.max(widest, stated(zone.getAsDouble()));
                    count++;
                }
            }
        }
        return new DemoTruth.ScrewTruth(screw.id, Math.rint(1e4 * sum / count) / 1e4, widest);
    }

    /** A walked way from the surface itself, to 1e-4 mm; 0 only where what was sought lies at the surface. */
    private static double stated(double wayMm) {
        return wayMm == 0 ? 0 : Math.rint(1e4 * (wayMm + OFF_SURFACE_MM)) / 1e4;
    }

    private List<DemoTruth.BreakTruth> breaks() {
        List<DemoTruth.BreakTruth> breaks = new ArrayList<>();
        for (DemoParts.Screw screw : DemoParts.Screw.values()) {
            RigidTransform moved = DemoScene.screwHead(screw, stage);
            addBreak(breaks, screw.id, moved.apply(screw.head), moved.apply(screw.direction()), screw.lengthMm(), 0);
        }
        for (DemoParts.Side side : DemoParts.Side.values()) {
            double done = 0;
            List<PatientPoint> points = DemoParts.rodPoints(side);
            for (int n = 0; n + 1 < points.size(); n++) {
                double length = points.get(n).distanceTo(points.get(n + 1));
                PatientVector along = points.get(n + 1).minus(points.get(n)).unit();
                addBreak(breaks, DemoScene.rodId(side), points.get(n), along, length, done);
                done += length;
            }
        }
        return breaks;
    }

    /** A break is a way without metal between two pieces of metal on the part's axis. */
    private void addBreak(
            List<DemoTruth.BreakTruth> breaks,
            String id,
            PatientPoint start,
            PatientVector along,
            double lengthMm,
            double doneMm) {
        OptionalDouble end = SceneProbe.wayTo(scene, start, along, name -> !DemoScene.isMetal(name), lengthMm);
        if (end.isEmpty() || end.getAsDouble() >= lengthMm - OFF_SURFACE_MM) {
            return;
        }
        double from = end.getAsDouble();
        OptionalDouble gap = SceneProbe.wayTo(
                scene, start.along(along, from + OFF_SURFACE_MM), along, DemoScene::isMetal, lengthMm - from);
        if (gap.isPresent()) {
            double middle = from + 0.5 * gap.getAsDouble();
            breaks.add(new DemoTruth.BreakTruth(
                    id,
                    doneMm + middle,
                    sceneToReference.apply(start.along(along, middle)),
                    stated(gap.getAsDouble())));
        }
    }

    private List<DemoTruth.MigrationTruth> migration() {
        return List.of(
                migration("T12", RigidTransform.IDENTITY, PatientVector.CRANIAL),
                migration("L2", DemoScene.caudalBone(stage), DemoParts.CAUDAL));
    }

    /** The body stays in its own frame; seen from a bone that moved, it moved the other way. */
    private DemoTruth.MigrationTruth migration(String bone, RigidTransform boneInBody, PatientVector towardsBone) {
        PatientVector moved = boneInBody.inverse().apply(PatientPoint.ORIGIN).minus(PatientPoint.ORIGIN);
        return new DemoTruth.MigrationTruth(
                DemoConstruct.BODY,
                bone.toLowerCase(java.util.Locale.ROOT),
                List.of(moved.x(), moved.y(), moved.z()),
                List.of(0.0, 0.0, 0.0),
                moved.dot(towardsBone));
    }
}
