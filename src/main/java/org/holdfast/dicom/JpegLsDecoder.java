package org.holdfast.dicom;

/**
 * JPEG-LS, lossless and near-lossless (ISO/IEC 14495-1 = ITU-T T.87): 2 to 16 bits, one to four components in one scan or
 * several. Mapping tables, subsampled components and point transforms are refused. Stateless.
 *
 * <p>Values are those that were coded, without a sign: whoever coded signed values gave their lowest bits.
 */
final class JpegLsDecoder implements FrameDecoder {

    /**
     * How far a decoded value may be from the original (NEAR of the first scan), in stored values; 0 if it is lossless.
     *
     * @param start first bytes of a frame, at least up to the end of its first scan header
     */
    static int nearLosslessError(byte[] start) throws CorruptFrameException {
        return new JpegLsHeaders(start).nextScan().near();
    }

    @Override
    public int decode(byte[] frame, PixelLayout layout, short[] words) throws CorruptFrameException {
        JpegLsHeaders headers = new JpegLsHeaders(frame);
        boolean[] decoded = new boolean[layout.samples()];
        int remaining = decoded.length;
        while (remaining > 0) {
            JpegLsHeaders.Scan scan = headers.nextScan();
            headers.requireLayout(layout);
            for (int component : scan.components()) {
                if (decoded[component]) {
                    throw new CorruptFrameException(
                            scan.dataOffset(), "one scan of each component", "component " + component + " again");
                }
                decoded[component] = true;
                remaining--;
            }
            int rows = decodeScan(frame, headers, scan, layout, words);
            if (rows < layout.rows()) {
                return wholeRows(frame, rows, remaining, layout);
            }
        }
        return (int) layout.frameValues();
    }

    private static int wholeRows(byte[] frame, int rows, int missingComponents, PixelLayout layout)
            throws CorruptFrameException {
        if (rows == 0 || missingComponents > 0) {
            throw new CorruptFrameException(frame.length, "a whole row of every component", "the end of the frame");
        }
        return rows * layout.columns() * layout.samples();
    }

    /** Decodes a scan; returns its whole rows, fewer than there are only if the frame ends before it does. */
    private static int decodeScan(
            byte[] frame, JpegLsHeaders headers, JpegLsHeaders.Scan scan, PixelLayout layout, short[] words)
            throws CorruptFrameException {
        JpegLsRows rows = new JpegLsRows(headers.coding(scan), scan, layout.columns());
        int interval = headers.restartInterval() == 0 ? layout.rows() : headers.restartInterval();
        int at = scan.dataOffset();
        int done = 0;
        for (int restarts = 0; done < layout.rows(); restarts++) {
            if (restarts > 0) {
                at = requireRestart(frame, at, (restarts - 1) % JpegLsSegments.RESTARTS);
            }
            int end = JpegLsSegments.endOfCodedData(frame, at);
            JpegLsBits bits = new JpegLsBits(frame, at, end);
            rows.restart(bits);
            int stop = done + Math.min(interval, layout.rows() - done);
            try {
                for (; done < stop; done++) {
                    rows.next();
                    copyRow(rows, scan, layout, words, done);
                }
            } catch (CorruptFrameException e) {
                if (bits.ranOut() && end == frame.length) {
                    return done;
                }
                throw e;
            }
            requireEnd(bits, end);
            at = end;
            if (at == frame.length) {
                break;
            }
        }
        headers.leaveTo(at);
        return done;
    }

    private static void requireEnd(JpegLsBits bits, int end) throws CorruptFrameException {
        if (!bits.isAtEnd()) {
            int more = end - bits.offset();
            throw new CorruptFrameException(bits.offset(), "the end of the coded data", more + " bytes more");
        }
    }

    /** Passes a restart marker, which are counted modulo 8; returns what is behind it. */
    private static int requireRestart(byte[] frame, int at, int number) throws CorruptFrameException {
        int marker = frame[at + 1] & 0xFF;
        if (marker != JpegLsSegments.FIRST_RESTART + number) {
            throw new CorruptFrameException(at, "restart marker " + number, "FF " + JpegLsSegments.hex(marker));
        }
        return at + 2;
    }

    private static void copyRow(
            JpegLsRows rows, JpegLsHeaders.Scan scan, PixelLayout layout, short[] words, int rowIndex) {
        int first = rowIndex * layout.columns() * layout.samples();
        int[] components = scan.components();
        for (int c = 0; c < components.length; c++) {
            rows.copy(c, words, first + components[c], layout.samples());
        }
    }
}
