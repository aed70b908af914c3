package org.holdfast.measure;

/**
 * What the reference exam says of a face and all later exams keep: the implant's edge under each sample, the host bone
 * with its threshold, and where host bone lay opposite. Arrays are one a sample and must not be written.
 *
 * @param edgeMm edge under each sample; NaN where it was not found
 * @param host host bone and bone threshold
 * @param oppositeBone whether host bone lay opposite
 */
record ReferenceFace(double[] edgeMm, HostBone host, boolean[] oppositeBone) {}
