package org.holdfast.dicom;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The value of SpecificCharacterSet (PS3.3, section C.12.1.1.2): one character set, with ISO 2022 code extensions or
 * without. Immutable. Misspelt and unknown terms never fail: a name is not worth losing an image for.
 */
final class SpecificCharacterSet {

    /** No term: ASCII. Bytes beyond it are taken as UTF-8 if they are that, else as Latin 1. */
    static final SpecificCharacterSet DEFAULT = new SpecificCharacterSet(null);

    /** Character set of the right half of an ISO registration, for sets that take no code extension of two bytes. */
    private static final Map<Integer, String> SINGLE_BYTE = Map.ofEntries(
            Map.entry(100, "ISO-8859-1"),
            Map.entry(101, "ISO-8859-2"),
            Map.entry(109, "ISO-8859-3"),
            Map.entry(110, "ISO-8859-4"),
            Map.entry(144, "ISO-8859-5"),
            Map.entry(127, "ISO-8859-6"),
            Map.entry(126, "ISO-8859-7"),
            Map.entry(138, "ISO-8859-8"),
            Map.entry(148, "ISO-8859-9"),
            Map.entry(203, "ISO-8859-15"),
            Map.entry(166, "x-iso-8859-11"),
            Map.entry(13, "JIS_X0201"));

    private static final Pattern ISO_NUMBER = Pattern.compile("(?:ISO)?(?:2022)?(?:IR)+0*(\\d{1,3})");

    /** Bytes of a term that are looked at; the standard allows 16. */
    private static final int LONGEST_TERM = 64;

    private final Charset charset;

    private SpecificCharacterSet(Charset charset) {
        this.charset = charset;
    }

    /** The character set of an element's value field: the first term counts, further ones come by escape sequences. */
    static SpecificCharacterSet ofElement(byte[] value) {
        int length = 0;
        while (length < value.length && length < LONGEST_TERM && value[length] != '\\') {
            length++;
        }
        return ofTerm(new String(value, 0, length, StandardCharsets.ISO_8859_1));
    }

    static SpecificCharacterSet ofTerm(String term) {
        String plain = term.toUpperCase(Locale.ROOT).replaceAll("[^A-Z0-9]", "");
        if (plain.isEmpty()) {
            return DEFAULT;
        }
        return switch (plain) {
            case "GB18030" -> new SpecificCharacterSet(Charset.forName("GB18030"));
            case "GBK", "GB2312" -> new SpecificCharacterSet(Charset.forName("GBK"));
            case "UTF8" -> new SpecificCharacterSet(StandardCharsets.UTF_8);
            case "LATIN1", "ISO88591" -> new SpecificCharacterSet(StandardCharsets.ISO_8859_1);
            default -> ofNumber(plain);
        };
    }

    private static SpecificCharacterSet ofNumber(String plain) {
        Matcher matcher = ISO_NUMBER.matcher(plain);
        if (!matcher.matches()) {
            return DEFAULT;
        }
        int number = Integer.parseInt(matcher.group(1));
        if (number == 192) {
            return new SpecificCharacterSet(StandardCharsets.UTF_8);
        }
        String name = SINGLE_BYTE.get(number);
        return name == null ? DEFAULT : new SpecificCharacterSet(Charset.forName(name));
    }

    static Charset ofRegistration(int number) {
        return Charset.forName(SINGLE_BYTE.get(number));
    }

    /** The text of a value field. */
    String decode(byte[] value, Vr vr) {
        boolean escapes = false;
        boolean ascii = true;
        for (byte b : value) {
            escapes |= b == 0x1B;
            ascii &= b >= 0;
        }
        if (escapes) {
            return new Iso2022Decoder(charset, vr).decode(value);
        }
        if (ascii) {
            return new String(value, StandardCharsets.US_ASCII);
        }
        if (charset == null) {
            return strictUtf8(value).orElseGet(() -> new String(value, StandardCharsets.ISO_8859_1));
        }
        return new String(value, charset);
    }

    /** The bytes of a text, or nothing if the set lacks one of its characters. */
    Optional<byte[]> encode(String text) {
        Charset target = charset == null ? StandardCharsets.US_ASCII : charset;
        if (!target.canEncode()) {
            return Optional.empty();
        }
        try {
            ByteBuffer bytes = target.newEncoder().encode(CharBuffer.wrap(text));
            byte[] out = new byte[bytes.remaining()];
            bytes.get(out);
            return Optional.of(out);
        } catch (CharacterCodingException e) {
            return Optional.empty();
        }
    }

    private static Optional<String> strictUtf8(byte[] value) {
        try {
            return Optional.of(StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(value))
                    .toString());
        } catch (CharacterCodingException e) {
            return Optional.empty();
        }
    }
}
