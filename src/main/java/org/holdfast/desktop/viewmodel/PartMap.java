package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Component;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.desktop.render.ChangeClass;
import org.holdfast.desktop.render.FaceClass;
import org.holdfast.desktop.render.FaceMapPainter;
import org.holdfast.desktop.render.MapCell;
import org.holdfast.desktop.render.MapPicture;
import org.holdfast.desktop.render.PixelSize;
import org.holdfast.desktop.render.StraightenedPainter;
import org.holdfast.desktop.render.ZoneMapPainter;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.MapKind;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.figure.Face;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.LucencySettings;
import org.holdfast.measure.ScrewLucency.Zone;
import org.holdfast.volume.HuVolume;

/**
 * What the picture under an exam's cuts shows of a part: a map of what was found, or why there is none. Immutable.
 *
 * @param content what is drawn; empty where there is nothing
 * @param words where something is drawn its summary, else why there is nothing
 */
public record PartMap(Optional<Content> content, String words) {

    /** Width at which a screw is loose, if it is so all round, mm. */
    private static final double LOOSE_MM = 2;

    /** Draws at a size; equal contents look alike. */
    public sealed interface Content {

        /** The picture at a size in device pixels, none of them 0. */
        MapPicture paint(PixelSize size);
    }

    private record FaceContent(List<MapCell> cells, InterfaceExam measured, ConstructPart part) implements Content {
        @Override
        public MapPicture paint(PixelSize size) {
            return FaceMapPainter.paint(
                    cells, measured.face().patches(), part.frame().faceOn(), size);
        }
    }

    private record ZoneContent(Zone zone, ScrewShape screw, Face.GapLimits limits) implements Content {
        @Override
        public MapPicture paint(PixelSize size) {
            List<String> words = zone.sectors().stream().map(ZoneWords::of).toList();
            return ZoneMapPainter.paint(zone, screw, limits, words, size);
        }
    }

    private record StraightContent(
            StraightenedPainter.Part straightened, HuWindow window, PatientPoint start, PatientVector direction)
            implements Content {
        @Override
        public MapPicture paint(PixelSize size) {
            return StraightenedPainter.paint(straightened, window, start, direction, size);
        }
    }

    /**
     * What is looked at, and through which window.
     *
     * @param kind which map
     * @param window HU from black to white, for a straightened view
     * @param volume the exam's image, if it is there now
     * @param referenceToExam the exam's pose
     */
    public record Look(MapKind kind, HuWindow window, Optional<HuVolume> volume, RigidTransform referenceToExam) {}

    /**
     * What a map depends on: with an equal key the map is the same, and need not be made again.
     *
     * @param partId the part
     * @param measured what was measured of it; empty if nothing was
     * @param kind which map
     * @param look how it is looked at, where that matters
     * @param isMeasuring whether it is being measured
     */
    public record Key(
            String partId,
            Optional<Object> measured,
            Optional<MapKind> kind,
            Optional<Look> look,
            boolean isMeasuring) {

        /** The key of a part's map in an exam. */
        static Key of(ConstructPart part, String examLabel, Known known, Optional<Look> look) {
            Optional<Object> measured = part.kind() == PartKind.INTERFACE
                    ? known.of(examLabel, part.id()).map(Object.class::cast)
                    : known.component(examLabel, part.id()).map(Object.class::cast);
            return new Key(
                    part.id(),
                    measured,
                    look.map(Look::kind),
                    look.filter(each -> each.kind() == MapKind.STRAIGHTENED),
                    known.isMeasuring());
        }
    }

    /** The map of a part in an exam. */
    public static PartMap of(ConstructPart part, String examLabel, Known known, Look look) {
        if (part.kind() == PartKind.INTERFACE) {
            return known.of(examLabel, part.id())
                    .map(measured -> ofFace(part, examLabel, measured, look.kind()))
                    .orElseGet(() -> unmeasured(known));
        }
        Optional<ComponentExam> measured = known.component(examLabel, part.id());
        if (measured.isEmpty()) {
            return unmeasured(known);
        }
        return look.kind() == MapKind.ZONE
                ? ofZone(measured.get(), known.report().orElseThrow().settings().lucency())
                : ofContinuity(part, measured.get(), look);
    }

    /** Nothing, and why. */
    static PartMap not(String why) {
        return new PartMap(Optional.empty(), why);
    }

    private static PartMap unmeasured(Known known) {
        return not(known.isMeasuring() ? "measuring" : "not measured");
    }

    private static PartMap ofFace(ConstructPart part, String exam, InterfaceExam measured, MapKind kind) {
        Face.GapLimits limits = Face.GapLimits.USUAL;
        return switch (kind) {
            case BY_THRESHOLD ->
                measured.contact()
                        .map(c -> drawn(
                                c.readings().stream()
                                        .map(r -> new MapCell(r.sample(), FaceClass.of(r, limits), ReadingWords.of(r)))
                                        .toList(),
                                measured,
                                part,
                                ReadingWords.summary(part.label(), exam, c.readings())))
                        .orElseGet(() -> not("not assessable"));
            case CHANGE ->
                measured.change()
                        .value()
                        .map(c -> drawn(
                                c.readings().stream()
                                        .map(r -> new MapCell(r.sample(), ChangeClass.of(r), ReadingWords.of(r)))
                                        .toList(),
                                measured,
                                part,
                                ReadingWords.summary(part.label(), exam, c)))
                        .orElseGet(
                                () -> not("no change map: " + measured.change().why()));
            default ->
                measured.byFit()
                        .value()
                        .map(c -> drawn(
                                c.readings().stream()
                                        .map(r -> new MapCell(r.sample(), FaceClass.of(r, limits), ReadingWords.of(r)))
                                        .toList(),
                                measured,
                                part,
                                ReadingWords.fitted(part.label(), exam, c)))
                        .orElseGet(() -> not("not fitted: " + measured.byFit().why()));
        };
    }

    private static PartMap drawn(List<MapCell> cells, InterfaceExam measured, ConstructPart part, String words) {
        return new PartMap(Optional.of(new FaceContent(cells, measured, part)), words);
    }

    private static PartMap ofZone(ComponentExam measured, LucencySettings settings) {
        Optional<Zone> zone = measured.lucency().value().flatMap(ComponentFinding::zoneOf);
        if (zone.isEmpty() || !(measured.component().shape() instanceof ScrewShape screw)) {
            return not("no zone map: " + ComponentCauses.whyNoZone(measured.lucency()));
        }
        if (zone.get().sectors().isEmpty()) {
            return not("the sectors are not kept with earlier results: measure again");
        }
        Face.GapLimits limits = limits(settings);
        return new PartMap(
                Optional.of(new ZoneContent(zone.get(), screw, limits)),
                ZoneWords.summary(measured.component().label(), measured.examLabel(), zone.get()));
    }

    /** Where the classes of a zone part: at the limit of the settings, and where a screw is loose. */
    public static Face.GapLimits limits(LucencySettings settings) {
        return new Face.GapLimits(settings.limitMm(), Math.max(LOOSE_MM, settings.limitMm()));
    }

    private static PartMap ofContinuity(ConstructPart part, ComponentExam measured, Look look) {
        if (measured.continuity().value().isEmpty()) {
            return not("not straightened: " + measured.continuity().why());
        }
        Continuity whole = measured.continuity().value().get();
        if (whole.stations().isEmpty()) {
            return not("the profile is not kept with earlier results: measure again");
        }
        Component component = measured.component();
        PatientPoint start = start(component, part);
        PatientVector direction = end(component, part).minus(start).unit();
        StraightenedPainter.Part straightened = new StraightenedPainter.Part(
                look.volume()
                        .flatMap(volume ->
                                Straightening.image(volume, whole, side(part, direction, look.referenceToExam()))),
                whole.stations().stream().map(StationWords::station).toList(),
                whole.breaks().stream()
                        .map(each -> new StraightenedPainter.BreakAt(
                                each.atMm(), each.status() == Continuity.Status.CONFIRMED))
                        .toList());
        return new PartMap(
                Optional.of(new StraightContent(straightened, look.window(), start, direction)),
                StationWords.summary(component.label(), measured.examLabel(), whole));
    }

    private static PatientPoint start(Component component, ConstructPart part) {
        return component.shape() instanceof ScrewShape screw
                ? screw.head()
                : component.shape() instanceof RodShape rod
                        ? rod.points().get(0)
                        : part.frame().middle();
    }

    private static PatientPoint end(Component component, ConstructPart part) {
        return component.shape() instanceof ScrewShape screw
                ? screw.tip()
                : component.shape() instanceof RodShape rod
                        ? rod.points().get(rod.points().size() - 1)
                        : part.frame().middle().along(part.frame().along().right(), 1);
    }

    /** The side from which the part is seen: across it in its cut along. */
    private static PatientVector side(ConstructPart part, PatientVector direction, RigidTransform pose) {
        PatientVector right = part.frame().along().right();
        PatientVector down = part.frame().along().down();
        PatientVector across = Math.abs(right.dot(direction)) < Math.abs(down.dot(direction)) ? right : down;
        return pose.apply(across.minus(direction.times(across.dot(direction))).unit());
    }
}
