package org.holdfast.figure;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * The classes into which a face-on map sorts its samples, each with a mark and words. Marks differ in shape as well as
 * in colour, and their luminance falls from bone to none, so that a grey print still reads.
 */
final class FaceClasses {

    /** One class: its words, the samples in it, and how a cell of it is painted. */
    record FaceClass(String words, Predicate<FaceState> holds, CellMark mark) {}

    /** Paints the mark of a class into the square cell of the given centre and side, logical pixels. */
    interface CellMark {
        void paint(Drawing.Builder pen, double x, double y, double side);
    }

    private FaceClasses() {}

    /** The classes of a face: always the same first six, then one for each cause of not being assessable. */
    static List<FaceClass> of(Face face) {
        double narrow = face.limits().narrowMm();
        double wide = face.limits().wideMm();
        List<FaceClass> classes = new ArrayList<>();
        classes.add(new FaceClass(
                "contact, bridged to the bone", FaceState.Bridged.class::isInstance, FaceClasses::bridged));
        classes.add(new FaceClass(
                "contact, no gap visible", FaceState.Contact.class::isInstance, square(Palette.MAP_CONTACT, 1)));
        classes.add(new FaceClass(
                "gap under " + width(narrow), gap(width -> width < narrow), square(Palette.MAP_NARROW_GAP, 0.74)));
        classes.add(new FaceClass(
                "gap " + width(narrow) + " to " + width(wide),
                gap(width -> width >= narrow && width <= wide),
                square(Palette.MAP_GAP, 0.58)));
        classes.add(
                new FaceClass("gap over " + width(wide), gap(width -> width > wide), square(Palette.MAP_NONE, 0.42)));
        classes.add(new FaceClass("no bone within reach", FaceState.NoBone.class::isInstance, FaceClasses::hollow));
        int number = 0;
        for (String cause : causes(face)) {
            classes.add(new FaceClass(
                    "not assessable: " + cause,
                    state -> state instanceof FaceState.NotAssessable not
                            && not.cause().equals(cause),
                    strokes(number++)));
        }
        return classes;
    }

    /** The class of a sample; every state has one. */
    static FaceClass classOf(FaceState state, List<FaceClass> classes) {
        Optional<FaceClass> found =
                classes.stream().filter(each -> each.holds().test(state)).findFirst();
        return found.orElseThrow(() -> new IllegalArgumentException("no class holds " + state));
    }

    private static Set<String> causes(Face face) {
        Set<String> causes = new LinkedHashSet<>();
        for (FaceSample sample : face.samples()) {
            if (sample.state() instanceof FaceState.NotAssessable not) {
                causes.add(not.cause());
            }
        }
        return causes;
    }

    private static Predicate<FaceState> gap(Predicate<Double> width) {
        return state -> state instanceof FaceState.Gap gap && width.test(gap.widthMm());
    }

    private static String width(double mm) {
        return String.format(Locale.ROOT, "%.1f mm", mm);
    }

    private static CellMark square(Colour colour, double share) {
        return (pen, x, y, side) -> {
            double edge = side * share * 0.92; // a sliver of ground keeps neighbouring cells apart
            pen.fill(x - edge / 2, y - edge / 2, edge, edge, colour);
        };
    }

    private static void bridged(Drawing.Builder pen, double x, double y, double side) {
        square(Palette.MAP_BRIDGED, 1).paint(pen, x, y, side);
        pen.disc(x, y, side * 0.17, Palette.WELL);
    }

    private static void hollow(Drawing.Builder pen, double x, double y, double side) {
        double edge = side * 0.46;
        pen.frame(x - edge / 2, y - edge / 2, edge, edge, Stroke.of(Palette.MAP_NONE, side * 0.12));
    }

    /** Strokes that tell the causes apart: rising, falling, both, level; from then on level too. */
    private static CellMark strokes(int number) {
        return (pen, x, y, side) -> {
            square(Palette.MAP_CANNOT_TELL, 1).paint(pen, x, y, side);
            double half = side * 0.34;
            Stroke stroke = Stroke.of(Palette.MAP_CANNOT_TELL_STROKE, side * 0.11);
            if (number == 0 || number == 2) {
                pen.line(x - half, y + half, x + half, y - half, stroke);
            }
            if (number == 1 || number == 2) {
                pen.line(x - half, y - half, x + half, y + half, stroke);
            }
            if (number > 2) {
                pen.line(x - half, y, x + half, y, stroke);
            }
        };
    }
}
