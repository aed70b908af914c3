package org.holdfast.desktop.state;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.holdfast.geometry.PatientVector;

/**
 * Directions of the patient as letters at the edges of an image: R and L right and left, A and P front and back, H and F head
 * and feet. The letters and their order, the principal one first, are those of DICOM PS3.3 C.7.6.1.1.1.
 */
public final class Orientation {

    /** A direction that leans less than this towards an axis does not get its letter, degrees; a choice of this program. */
    public static final double LEANS_DEGREES = 20;

    private static final double LEAST = Math.sin(Math.toRadians(LEANS_DEGREES));
    private static final int MOST_LETTERS = 2;

    private record Lean(char letter, double share) {
        static Lean of(double component, char towards, char away) {
            return new Lean(component >= 0 ? towards : away, Math.abs(component));
        }
    }

    private Orientation() {}

    /**
     * The letters of a direction: the axis it runs along most, then the second one if it leans at least 20° towards it. A
     * direction in the plane of two axes thus has two letters from 20° to 70°. Of equal leans, left-right comes before
     * front-back before head-feet.
     *
     * @param direction any length but 0
     * @throws IllegalArgumentException if the vector has no direction
     */
    public static String letters(PatientVector direction) {
        PatientVector unit = direction.unit();
        List<Lean> leans = Stream.of(
                        Lean.of(unit.x(), 'L', 'R'), Lean.of(unit.y(), 'P', 'A'), Lean.of(unit.z(), 'H', 'F'))
                .sorted(Comparator.comparingLong((Lean lean) -> -Math.round(lean.share() * 1e9)))
                .limit(MOST_LETTERS)
                .toList();
        return leans.stream()
                .filter(lean -> lean == leans.get(0) || lean.share() >= LEAST)
                .map(lean -> String.valueOf(lean.letter()))
                .collect(Collectors.joining());
    }

    /** The letters as words for a reader that speaks: "left front". */
    public static String words(String letters) {
        return letters.toUpperCase(Locale.ROOT)
                .chars()
                .mapToObj(letter -> word((char) letter))
                .collect(Collectors.joining(" "));
    }

    private static String word(char letter) {
        return switch (letter) {
            case 'R' -> "right";
            case 'L' -> "left";
            case 'A' -> "front";
            case 'P' -> "back";
            case 'H' -> "head";
            case 'F' -> "feet";
            default -> throw new IllegalArgumentException("letter must be one of R L A P H F, got " + letter);
        };
    }
}
