package org.holdfast.volume;

/**
 * A continuous position in a volume; a voxel's centre has integer coordinates.
 *
 * @param i along columns
 * @param j along rows
 * @param k along slices
 */
public record VoxelCoord(double i, double j, double k) {}
