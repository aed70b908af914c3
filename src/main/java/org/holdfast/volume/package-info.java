/**
 * The HU volume of a CT stack and its grid in patient space, sampling, oblique cuts, slab projections, and the facts of
 * its acquisition with what may be compared with what.
 *
 * <p>Patient space is DICOM LPS in mm. A voxel's centre has integer coordinates: (i, j, k) = (column, row, slice),
 * 0-based, slices in ascending order along the normal rowDirection × columnDirection. The package is free of DICOM; the
 * memory layout of the volume is private to it. May use {@code geometry} and {@code finding}.
 */
package org.holdfast.volume;
