/**
 * Where the same metal and the same bone lie in two exams: surface points of metal, matching of surfaces, refinement on
 * the edges themselves, and matching of bone by its voxels.
 *
 * <p>All points are in patient space (DICOM LPS, mm) of the exam that their name says; every pose maps the reference
 * exam's patient space to that of the other exam. A pose that cannot be trusted is refused with a reason, never given
 * silently. May use {@code geometry} and {@code volume}; knows nothing of a construct.
 */
package org.holdfast.registration;
