package org.holdfast.dicom;

import java.util.List;
import java.util.Objects;

/**
 * How a data set's bytes are laid out (PS3.5, section 10 and annex A). Immutable.
 *
 * @param uid unique identifier
 * @param name the standard's name, or words that say it is not a known one
 * @param explicit whether value representations are written
 * @param bigEndian whether numbers have their high byte first
 * @param deflated whether the data set is compressed as a whole
 * @param encapsulated whether the pixels are compressed, in fragments
 */
public record TransferSyntax(
        String uid, String name, boolean explicit, boolean bigEndian, boolean deflated, boolean encapsulated) {

    public static final TransferSyntax IMPLICIT_LITTLE_ENDIAN =
            new TransferSyntax("1.2.840.10008.1.2", "Implicit VR Little Endian", false, false, false, false);
    public static final TransferSyntax EXPLICIT_LITTLE_ENDIAN =
            new TransferSyntax("1.2.840.10008.1.2.1", "Explicit VR Little Endian", true, false, false, false);
    public static final TransferSyntax DEFLATED_EXPLICIT_LITTLE_ENDIAN = new TransferSyntax(
            "1.2.840.10008.1.2.1.99", "Deflated Explicit VR Little Endian", true, false, true, false);
    public static final TransferSyntax EXPLICIT_BIG_ENDIAN =
            new TransferSyntax("1.2.840.10008.1.2.2", "Explicit VR Big Endian", true, true, false, false);

    /** UID of RLE Lossless. */
    static final String RLE_LOSSLESS = "1.2.840.10008.1.2.5";

    private static final List<TransferSyntax> KNOWN = List.of(
            IMPLICIT_LITTLE_ENDIAN,
            EXPLICIT_LITTLE_ENDIAN,
            DEFLATED_EXPLICIT_LITTLE_ENDIAN,
            EXPLICIT_BIG_ENDIAN,
            new TransferSyntax(
                    "1.2.840.10008.1.2.1.98",
                    "Encapsulated Uncompressed Explicit VR Little Endian",
                    true,
                    false,
                    false,
                    true),
            encapsulated("4.50", "JPEG Baseline (Process 1)"),
            encapsulated("4.51", "JPEG Extended (Process 2 and 4)"),
            encapsulated("4.53", "JPEG Spectral Selection, Non-Hierarchical (Process 6 and 8) (Retired)"),
            encapsulated("4.55", "JPEG Full Progression, Non-Hierarchical (Process 10 and 12) (Retired)"),
            encapsulated("4.57", "JPEG Lossless, Non-Hierarchical (Process 14)"),
            encapsulated(
                    "4.70", "JPEG Lossless, Non-Hierarchical, First-Order Prediction (Process 14, Selection Value 1)"),
            encapsulated("4.80", "JPEG-LS Lossless"),
            encapsulated("4.81", "JPEG-LS Lossy (Near-Lossless)"),
            encapsulated("4.90", "JPEG 2000 (Lossless Only)"),
            encapsulated("4.91", "JPEG 2000"),
            encapsulated("4.92", "JPEG 2000 Part 2 Multi-component (Lossless Only)"),
            encapsulated("4.93", "JPEG 2000 Part 2 Multi-component"),
            encapsulated("4.94", "JPIP Referenced"),
            encapsulated("4.95", "JPIP Referenced Deflate"),
            encapsulated("4.100", "MPEG2 Main Profile / Main Level"),
            encapsulated("4.101", "MPEG2 Main Profile / High Level"),
            encapsulated("4.102", "MPEG-4 AVC/H.264 High Profile / Level 4.1"),
            encapsulated("4.103", "MPEG-4 AVC/H.264 BD-compatible High Profile / Level 4.1"),
            encapsulated("4.104", "MPEG-4 AVC/H.264 High Profile / Level 4.2 For 2D Video"),
            encapsulated("4.105", "MPEG-4 AVC/H.264 High Profile / Level 4.2 For 3D Video"),
            encapsulated("4.106", "MPEG-4 AVC/H.264 Stereo High Profile / Level 4.2"),
            encapsulated("4.107", "HEVC/H.265 Main Profile / Level 5.1"),
            encapsulated("4.108", "HEVC/H.265 Main 10 Profile / Level 5.1"),
            encapsulated("4.110", "JPEG XL Lossless"),
            encapsulated("4.111", "JPEG XL JPEG Recompression"),
            encapsulated("4.112", "JPEG XL"),
            encapsulated("4.201", "High-Throughput JPEG 2000 (Lossless Only)"),
            encapsulated("4.202", "High-Throughput JPEG 2000 with RPCL Options (Lossless Only)"),
            encapsulated("4.203", "High-Throughput JPEG 2000"),
            encapsulated("4.204", "JPIP HTJ2K Referenced"),
            encapsulated("4.205", "JPIP HTJ2K Referenced Deflate"),
            encapsulated("5", "RLE Lossless"));

    public TransferSyntax {
        Objects.requireNonNull(uid, "uid");
        Objects.requireNonNull(name, "name");
        if (bigEndian && !explicit) {
            throw new IllegalArgumentException("no transfer syntax is big endian with implicit VR, got " + uid);
        }
    }

    /** The syntax of a UID; one that is not known is taken as explicit little endian with compressed pixels. */
    public static TransferSyntax of(String uid) {
        for (TransferSyntax known : KNOWN) {
            if (known.uid.equals(uid)) {
                return known;
            }
        }
        return new TransferSyntax(uid, "unknown transfer syntax", true, false, false, true);
    }

    /** Whether the UID is one of the standard's that are known here. */
    public boolean isKnown() {
        return KNOWN.stream().anyMatch(known -> known.uid.equals(uid));
    }

    /** Name and UID, for messages. */
    public String describe() {
        return name + " (" + uid + ")";
    }

    private static TransferSyntax encapsulated(String end, String name) {
        return new TransferSyntax("1.2.840.10008.1.2." + end, name, true, false, false, true);
    }
}
