/**
 * DICOM files in and out: Part 10 data sets, character sets, transfer syntaxes, stored pixel values; hardened against
 * hostile input.
 *
 * <p>Nobody above this package knows a tag's bytes. Rows, columns, bits and element numbers are DICOM's own (PS3.3,
 * PS3.5, PS3.6, PS3.10); geometry and HU are not known here. May use {@code finding}.
 */
package org.holdfast.dicom;
