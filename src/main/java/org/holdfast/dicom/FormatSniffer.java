package org.holdfast.dicom;

import java.io.IOException;

/** Finds where a data set starts and how it is written when the file does not say, or says it wrongly. */
final class FormatSniffer {

    private static final int PREAMBLE = 128;
    /** First elements of a data set are short; a longer one means that the bytes were read the wrong way. */
    private static final long LONGEST_FIRST_VALUE = 1 << 20;

    private static final int MOST_JUNK = 16;

    private FormatSniffer() {}

    /** Offset of the first element, or −1 if this is not DICOM. */
    static long start(ByteSource source) throws IOException {
        if (source.size() >= PREAMBLE + 4 + 8 && hasMagic(source) && syntaxAt(source, PREAMBLE + 4L) != null) {
            return PREAMBLE + 4L;
        }
        if (syntaxAt(source, 0) != null) {
            return 0;
        }
        if (source.size() > PREAMBLE + 8 && syntaxAt(source, PREAMBLE) != null) {
            return PREAMBLE;
        }
        return startBehindJunk(source);
    }

    /** A few stray bytes before an explicit (0008,xxxx) element come from careless cutting of a preamble. */
    private static long startBehindJunk(ByteSource source) throws IOException {
        for (long at = 1; at <= MOST_JUNK && at + 8 <= source.size(); at++) {
            boolean identifying = source.tag(at, false) >>> 8 == 0x000800;
            if (identifying && syntaxAt(source, at) == TransferSyntax.EXPLICIT_LITTLE_ENDIAN) {
                return at;
            }
        }
        return -1;
    }

    private static boolean hasMagic(ByteSource source) throws IOException {
        return source.unsignedByte(PREAMBLE) == 'D'
                && source.unsignedByte(PREAMBLE + 1L) == 'I'
                && source.unsignedByte(PREAMBLE + 2L) == 'C'
                && source.unsignedByte(PREAMBLE + 3L) == 'M';
    }

    /** How the element at an offset is written, or null if it is no plausible first element of a data set. */
    static TransferSyntax syntaxAt(ByteSource source, long at) throws IOException {
        if (source.size() - at < 8) {
            return null;
        }
        boolean letters = Vr.of(source.unsignedByte(at + 4), source.unsignedByte(at + 5)) != null;
        if (letters && isFirstGroup(source.unsignedShort(at, false))) {
            return TransferSyntax.EXPLICIT_LITTLE_ENDIAN;
        }
        if (letters && isFirstGroup(source.unsignedShort(at, true))) {
            return TransferSyntax.EXPLICIT_BIG_ENDIAN;
        }
        boolean little = isFirstGroup(source.unsignedShort(at, false));
        long length = source.unsignedInt(at + 4, false);
        boolean fits = length <= Math.min(LONGEST_FIRST_VALUE, source.size() - at - 8) && length % 2 == 0;
        return little && fits ? TransferSyntax.IMPLICIT_LITTLE_ENDIAN : null;
    }

    private static boolean isFirstGroup(int group) {
        return group == 0x0002 || group == 0x0004 || group == 0x0008 || group == 0x0010 || group == 0x0000;
    }
}
