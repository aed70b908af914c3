package org.holdfast.measure;

import java.util.List;
import java.util.Locale;
import java.util.Objects;

/**
 * Published classes of subsidence, migration and tilt, as data: each table with its boundaries, what it was made for and
 * where it was published. A class describes a measured number; none of them is a verdict about the patient. A value whose
 * change lies within repeatability must not be graded: that is the caller's to see to.
 */
public enum PublishedGrading {
    /** Cage subsidence after oblique lumbar interbody fusion. */
    OBLIQUE_LUMBAR_CAGE(
            "cage subsidence, oblique lumbar interbody fusion",
            "lumbar interbody cages",
            "mm",
            "BMC Musculoskelet Disord 2022, s12891-022-05165-4 (242 levels)",
            List.of(
                    Step.upTo(2, "none (at most 2 mm)"),
                    Step.upTo(4, "mild (over 2, at most 4 mm)"),
                    Step.last("severe (over 4 mm)"))),
    /** Subsidence of cervical interbody implants on CT; the class of exactly 2 and of exactly 4 mm is the table's own. */
    CERVICAL_CT(
            "subsidence of cervical interbody implants on CT",
            "cervical interbody implants",
            "mm",
            "Pinter et al., Global Spine J 2023;13:1703",
            List.of(
                    Step.upTo(2, "mild (at most 2 mm)"),
                    Step.below(4, "moderate (over 2, under 4 mm)"),
                    Step.last("severe (4 mm or more)"))),
    /**
     * Share of the cage's height that was lost. The source gives whole percents (0–24, 25–49, 50–74, 75–100); between them
     * the classes are read as half-open.
     */
    HEIGHT_SHARE(
            "Marchi: share of the cage's height lost",
            "lateral lumbar interbody cages",
            "%",
            "Marchi et al., J Neurosurg Spine 2013;19:110; half-open between whole percents",
            List.of(
                    Step.below(25, "0 (under 25 %)"),
                    Step.below(50, "I (25 to under 50 %)"),
                    Step.below(75, "II (50 to under 75 %)"),
                    Step.lastUpTo(100, "III (75 to 100 %)"))),
    /** The cut that many series use. */
    OVER_TWO_MM(
            "subsidence over 2 mm",
            "lumbar interbody cages",
            "mm",
            "cut common to many series of interbody fusion; no single source",
            List.of(Step.upTo(2, "no (at most 2 mm)"), Step.last("yes (over 2 mm)"))),
    /** Change of a screw's angle against its endplate that went with loosening. The value is its magnitude. */
    SCREW_ANGLE(
            "change of a screw's angle against its endplate",
            "lumbar pedicle screws, radiographs, 0 to 6 months",
            "°",
            "Aghayev et al., Eur Spine J 2014;23:689 (sensitivity 75 %, specificity 89 %)",
            List.of(Step.below(1.9, "no (under 1.9°)"), Step.last("yes (1.9° or more)"))),
    /** Migration of acetabular cups at two years by stereophotogrammetry. */
    CUP_TWO_YEARS(
            "migration of acetabular cups in two years",
            "acetabular cups, stereophotogrammetry",
            "mm",
            "Pijls et al., Acta Orthop 2012;83:583",
            List.of(
                    Step.upTo(0.2, "acceptable (at most 0.2 mm)"),
                    Step.below(1.0, "at risk (over 0.2, under 1.0 mm)"),
                    Step.last("unacceptable (1.0 mm or more)")));

    /** Where a value may stand against the implants for which a table was made. */
    public enum Use {
        /** The implant is one of those. */
        AS_PUBLISHED,
        /** It is another: the class is labelled so. */
        ADAPTED
    }

    /**
     * A class of a table.
     *
     * @param limit upper boundary, in the table's unit
     * @param isLimitIncluded whether a value of exactly the limit belongs to this class
     * @param label the class in words, with its boundaries
     */
    public record Step(double limit, boolean isLimitIncluded, String label) {

        private static Step upTo(double limit, String label) {
            return new Step(limit, true, label);
        }

        private static Step below(double limit, String label) {
            return new Step(limit, false, label);
        }

        private static Step last(String label) {
            return new Step(Double.POSITIVE_INFINITY, true, label);
        }

        private static Step lastUpTo(double limit, String label) {
            return new Step(limit, true, label);
        }

        private boolean holds(double value) {
            return isLimitIncluded ? value <= limit : value < limit;
        }
    }

    /**
     * The class of a value.
     *
     * @param grading the table
     * @param label the class in words
     * @param use whether the table was made for such an implant
     */
    public record Grade(PublishedGrading grading, String label, Use use) {

        public Grade {
            Objects.requireNonNull(grading, "grading");
            Objects.requireNonNull(label, "label");
            Objects.requireNonNull(use, "use");
        }

        /** The class with its table's name, source and whether it is adapted. */
        public String inWords() {
            String adapted = use == Use.ADAPTED ? "; adapted, made for " + grading.madeFor : "";
            return grading.title + ": " + label + " [" + grading.source + adapted + "]";
        }
    }

    private final String title;
    private final String madeFor;
    private final String unit;
    private final String source;
    private final List<Step> steps;

    PublishedGrading(String title, String madeFor, String unit, String source, List<Step> steps) {
        this.title = title;
        this.madeFor = madeFor;
        this.unit = unit;
        this.source = source;
        this.steps = List.copyOf(steps);
    }

    /** What is graded, in words. */
    public String title() {
        return title;
    }

    /** The implants and method for which the table was made. */
    public String madeFor() {
        return madeFor;
    }

    /** Unit of the graded value: mm, % or °. */
    public String unit() {
        return unit;
    }

    /** Where it was published. */
    public String source() {
        return source;
    }

    /** The classes, lowest first. */
    public List<Step> steps() {
        return steps;
    }

    /**
     * The class of a value; none, with the reason, for a value under 0 (moved the other way) or beyond the table's end.
     *
     * @param value in the table's unit, finite; compared as it is, without rounding
     * @param use whether the implant is one for which the table was made
     */
    public Answer<Grade> grade(double value, Use use) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("a graded value must be finite, got " + value);
        }
        if (value < 0) {
            return Answer.not(String.format(Locale.ROOT, "%.2f %s: not in the direction that is graded", value, unit));
        }
        return steps.stream()
                .filter(step -> step.holds(value))
                .findFirst()
                .map(step -> Answer.of(new Grade(this, step.label(), use)))
                .orElseGet(() ->
                        Answer.not(String.format(Locale.ROOT, "%.2f %s lies beyond the table's end", value, unit)));
    }
}
