package org.holdfast.volume;

/**
 * A voxel of a volume, 0-based.
 *
 * @param i column
 * @param j row
 * @param k slice, ascending along the stack's normal
 */
public record VoxelIndex(int i, int j, int k) {}
