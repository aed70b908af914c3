package org.holdfast.app;

import java.nio.file.Files;
import java.time.LocalDate;
import java.util.Optional;
import org.holdfast.intake.DateHandling;
import org.holdfast.intake.Deidentifier;
import org.holdfast.intake.Pseudonyms;

/** What stands in place of a subject's identity, by the secret in its usual place. Immutable. */
final class SubjectPseudonyms {

    /** A UID of no object; what it becomes tells one secret from another without telling anything of either. */
    private static final String MARK_OF = "2.25.1";

    private static final int MARK_DIGITS = 8;

    private final Pseudonyms pseudonyms;

    private SubjectPseudonyms(Pseudonyms pseudonyms) {
        this.pseudonyms = pseudonyms;
    }

    /**
     * By the secret, which is made if there is none yet.
     *
     * @throws UseCaseException if it cannot be read or made
     */
    static SubjectPseudonyms of(String code) throws UseCaseException {
        return new SubjectPseudonyms(new Pseudonyms(
                DeidentificationKey.at(DeidentificationKey.place()).bytes(), code));
    }

    /**
     * By the secret if there is one, and the code can be one.
     *
     * @throws UseCaseException if it cannot be read
     */
    static Optional<SubjectPseudonyms> existing(String code) throws UseCaseException {
        return Files.exists(DeidentificationKey.place()) && Pseudonyms.isCode(code)
                ? Optional.of(of(code))
                : Optional.empty();
    }

    /** Cleans headers. */
    Deidentifier deidentifier(DateHandling dates) {
        return new Deidentifier(pseudonyms, dates);
    }

    /** Tells by which secret a subject's dates are shifted. */
    String mark() {
        String uid = uid(MARK_OF);
        return uid.substring(uid.length() - MARK_DIGITS);
    }

    String uid(String old) {
        return deidentifier(DateHandling.SHIFTED).uid(old);
    }

    LocalDate shifted(LocalDate day) {
        return pseudonyms.shifted(day);
    }

    LocalDate unshifted(LocalDate day) {
        return pseudonyms.unshifted(day);
    }
}
