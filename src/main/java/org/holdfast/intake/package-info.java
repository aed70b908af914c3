/**
 * From files to series, from series to stacks, from a stack to its HU volume, each step with its reasons.
 *
 * <p>Patient space is DICOM LPS in mm. What is taken from a file comes from its own attributes; file names, file order and
 * InstanceNumber decide nothing. May use {@code geometry}, {@code dicom}, {@code volume}, {@code finding} and
 * {@code progress}.
 */
package org.holdfast.intake;
