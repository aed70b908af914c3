package org.holdfast.architecture.trespass.intake;

import org.holdfast.architecture.trespass.dicom.ReadsBack;

/** One half of a cycle. */
public record ReadsAndIsRead(ReadsBack other) {}
