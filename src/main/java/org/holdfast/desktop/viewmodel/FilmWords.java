package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.stream.Collectors;
import org.holdfast.app.FilmExam;
import org.holdfast.desktop.state.Words;
import org.holdfast.volume.FilmFacts;
import org.holdfast.volume.FilmOrientation;
import org.holdfast.volume.PixelScale;
import org.holdfast.volume.VoiTransform;

/** What is written at and about radiographs. Stateless. */
public final class FilmWords {

    private FilmWords() {}

    /** View as in "front (AP)", with the side of a paired part. */
    public static String view(FilmFacts film) {
        FilmOrientation lies = film.orientation();
        String position = lies.viewPosition();
        String view = lies.view().words() + (position.isEmpty() ? "" : " (" + position + ")");
        return switch (lies.laterality()) {
            case "R" -> view + ", right side";
            case "L" -> view + ", left side";
            case "B" -> view + ", both sides";
            default -> view;
        };
    }

    /** Views of an exam, each once: "X-ray, front + side". */
    public static String views(FilmExam exam) {
        String views = exam.films().stream()
                .map(film -> film.facts().orientation().view())
                .filter(view -> view != FilmOrientation.View.UNKNOWN)
                .map(FilmOrientation.View::words)
                .distinct()
                .collect(Collectors.joining(" + "));
        return views.isEmpty() ? "X-ray" : "X-ray, " + views;
    }

    /** The kinds of scale of an exam, in full. */
    public static String scales(FilmExam exam) {
        return exam.films().stream()
                .map(film -> film.facts().scale().words())
                .distinct()
                .collect(Collectors.joining("; "));
    }

    /** The kinds of scale of an exam for the narrow head of a column. */
    public static String shortScales(FilmExam exam) {
        List<String> all = exam.films().stream()
                .map(film -> shortScale(film.facts().scale()))
                .distinct()
                .toList();
        return all.size() == 1 ? all.get(0) : "scales differ";
    }

    private static String shortScale(PixelScale scale) {
        return switch (scale.kind()) {
            case PATIENT -> "scale in the patient";
            case FIDUCIAL -> "scale by an object";
            case GEOMETRY -> "scale by geometry";
            case CALIBRATED -> "scale calibrated";
            case MAGNIFIED ->
                "scale ÷ " + Words.number(scale.magnification().orElseThrow().factor(), 2) + ", an estimate";
            case DETECTOR -> "scale at the detector";
            case SCANNED -> "scale of the sheet";
            case UNKNOWN -> "scale not explained";
            case NONE -> "no scale";
        };
    }

    /** What stands behind the length of a scale bar: nothing where it is mm in the patient. */
    public static String barWords(PixelScale scale) {
        return switch (scale.kind()) {
            case PATIENT, FIDUCIAL, GEOMETRY, CALIBRATED -> "";
            case MAGNIFIED -> "estimate";
            case DETECTOR -> "at the detector";
            case SCANNED -> "on the sheet";
            case UNKNOWN, NONE -> "";
        };
    }

    /** Whether a scale bar can say what its length is. */
    public static boolean hasBar(PixelScale scale) {
        return scale.kind() != PixelScale.Kind.UNKNOWN && scale.kind() != PixelScale.Kind.NONE;
    }

    /** A window in words: its name, else its numbers. */
    public static String window(VoiTransform window) {
        if (!window.name().isBlank() && !window.name().equals(FilmSight.OWN)) {
            return window.name();
        }
        return numbers(window);
    }

    /** Centre and width of a window; that it is a table, for one. */
    public static String numbers(VoiTransform window) {
        if (window instanceof VoiTransform.Window w) {
            return "C " + Words.number(w.centre(), 0) + "  W " + Words.number(w.width(), 0);
        }
        return "table of the file";
    }
}
