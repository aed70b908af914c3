package org.holdfast.architecture.trespass.dicom;

import org.holdfast.architecture.trespass.intake.ReadsAndIsRead;

/** The other half of a cycle. */
public final class ReadsBack {

    ReadsAndIsRead other() {
        return new ReadsAndIsRead(this);
    }
}
