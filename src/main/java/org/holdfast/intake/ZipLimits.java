package org.holdfast.intake;

/**
 * How much an archive may unpack to, so that a small hostile file cannot fill a disk. Immutable.
 *
 * @param entries most entries of an archive
 * @param totalBytes most bytes that all entries together may have
 * @param ratio how many times its compressed size an entry, or all of them the archive, may have
 * @param freeBytes size up to which the ratio does not count: black pictures compress well
 */
record ZipLimits(int entries, long totalBytes, int ratio, long freeBytes) {

    /** Far over what a disc or a stick of images holds. */
    static final ZipLimits DEFAULT = new ZipLimits(500_000, 64L << 30, 100, 64L << 20);

    ZipLimits {
        if (entries < 1 || totalBytes < 1 || ratio < 1 || freeBytes < 0) {
            throw new IllegalArgumentException("limits must be positive");
        }
    }

    boolean isTooMuch(long bytes, long compressedBytes) {
        return bytes > freeBytes && bytes / ratio > compressedBytes;
    }
}
