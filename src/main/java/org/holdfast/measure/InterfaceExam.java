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
 * @param key key of the result for staleness
 */
public record InterfaceExam(
        BoneInterface face, String examLabel, Verdict verdict, Optional<ThresholdContact> contact, String key) {}
