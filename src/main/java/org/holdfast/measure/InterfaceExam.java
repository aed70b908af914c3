package org.holdfast.measure;

import java.util.Optional;
import org.holdfast.construct.BoneInterface;

/**
 * One interface in one exam: the verdict first, then the measurement where there is one.
 *
 * @param face the interface
 * @param examLabel the exam
 * @param verdict what can be asked
 * @param contact contact by threshold; empty where the verdict forbids to measure
 * @param byFit contact by fit, or why there is none
 * @param fill bone in the pores since the reference exam
 * @param change change of mineral since the reference exam, or why there is none
 * @param key key of the result for staleness
 */
public record InterfaceExam(
        BoneInterface face,
        String examLabel,
        Verdict verdict,
        Optional<ThresholdContact> contact,
        Answer<FittedContact> byFit,
        PorousFill fill,
        Answer<ChangeMap> change,
        String key) {

    /** An interface of which only contact by threshold was measured. */
    public static InterfaceExam ofThreshold(
            BoneInterface face, String examLabel, Verdict verdict, Optional<ThresholdContact> contact, String key) {
        String why = "contact by threshold was asked for, nothing else";
        return new InterfaceExam(
                face, examLabel, verdict, contact, Answer.not(why), PorousFill.not(why), Answer.not(why), key);
    }
}
