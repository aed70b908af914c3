package org.holdfast.dicom;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;

/** DICOM bytes written by hand: hexadecimal digits, and text between apostrophes. */
final class Bytes {

    private Bytes() {}

    /** Preamble, magic and a file meta group that holds just the transfer syntax. */
    static byte[] file(String transferSyntaxUid, String dataSet) {
        String padded = transferSyntaxUid.length() % 2 == 0 ? transferSyntaxUid : transferSyntaxUid + "\0";
        String meta = "02001000 'UI' " + HexFormat.of().toHexDigits((byte) padded.length()) + "00 ";
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(new byte[128]);
        out.writeBytes(of("'DICM'" + meta));
        out.writeBytes(padded.getBytes(StandardCharsets.ISO_8859_1));
        out.writeBytes(of(dataSet));
        return out.toByteArray();
    }

    static byte[] of(String written) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        StringBuilder hex = new StringBuilder();
        boolean text = false;
        for (char c : written.toCharArray()) {
            if (c == '\'') {
                out.writeBytes(HexFormat.of().parseHex(hex));
                hex.setLength(0);
                text = !text;
            } else if (text) {
                out.write(c);
            } else if (!Character.isWhitespace(c)) {
                hex.append(c);
            }
        }
        out.writeBytes(HexFormat.of().parseHex(hex));
        return out.toByteArray();
    }
}
