/**
 * Points, vectors, rigid and affine transforms and planes in patient space: DICOM LPS (x to the patient's left, y to
 * posterior, z to cranial), millimetres, right-handed.
 *
 * <p>All types are immutable. The package knows nothing of images or implants and uses no other package.
 */
package org.holdfast.geometry;
