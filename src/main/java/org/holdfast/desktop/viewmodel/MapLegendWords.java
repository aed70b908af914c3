package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Optional;
import org.holdfast.desktop.render.ChangeClass;
import org.holdfast.desktop.render.FaceClass;
import org.holdfast.desktop.render.MapClass;
import org.holdfast.desktop.state.MapKind;
import org.holdfast.desktop.state.Words;
import org.holdfast.figure.Face;
import org.holdfast.measure.MeasurementSettings;

/** What the marks of a map mean, with the limits that the settings give them. */
public final class MapLegendWords {

    private MapLegendWords() {}

    /**
     * One line of a legend.
     *
     * @param mark the mark; empty for words alone
     * @param words what it means
     */
    public record Entry(Optional<MapClass> mark, String words) {}

    /** The legend of a kind of map. */
    public static List<Entry> of(MapKind kind, MeasurementSettings settings) {
        Face.GapLimits gaps = Face.GapLimits.USUAL;
        return switch (kind) {
            case BY_FIT, BY_THRESHOLD ->
                List.of(
                        entry(FaceClass.BRIDGED, "bridged"),
                        entry(FaceClass.CONTACT, "contact"),
                        entry(FaceClass.NARROW_GAP, "gap < " + mm(gaps.narrowMm())),
                        entry(FaceClass.GAP, "to " + mm(gaps.wideMm())),
                        entry(FaceClass.WIDE_GAP_OR_NO_BONE, "wider, none"),
                        entry(FaceClass.CANNOT_TELL, "cannot tell"));
            case CHANGE ->
                List.of(
                        entry(ChangeClass.MORE, "more"),
                        entry(ChangeClass.LESS, "less"),
                        entry(ChangeClass.NO_CHANGE, "within error"),
                        entry(ChangeClass.NOT_COMPARABLE, "cannot tell"));
            case ZONE -> {
                Face.GapLimits zones = PartMap.limits(settings.lucency());
                yield List.of(
                        entry(FaceClass.CONTACT, "zone < 0.5\u2009mm"),
                        entry(FaceClass.NARROW_GAP, "to " + mm(zones.narrowMm())),
                        entry(FaceClass.GAP, "to " + mm(zones.wideMm())),
                        entry(FaceClass.WIDE_GAP_OR_NO_BONE, "wider"),
                        entry(FaceClass.CANNOT_TELL, "cannot tell"));
            }
            case STRAIGHTENED ->
                List.of(
                        new Entry(Optional.empty(), "line: core HU"),
                        new Entry(Optional.empty(), "dots: area of metal"),
                        new Entry(Optional.empty(), "strokes: break"),
                        new Entry(Optional.empty(), "hatch: known joint"));
        };
    }

    private static Entry entry(MapClass mark, String words) {
        return new Entry(Optional.of(mark), words);
    }

    private static String mm(double value) {
        return Words.quantity(value, 1, "mm");
    }
}
