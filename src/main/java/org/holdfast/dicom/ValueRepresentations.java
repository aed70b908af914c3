package org.holdfast.dicom;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** Which value representation a standard element has (DICOM PS3.6), for implicit syntaxes and for building data sets. */
public final class ValueRepresentations {

    private static final String RESOURCE = "value-representations.txt";
    private static final long[] TAG_AND_VR = load();
    private static final Vr[] VRS = Vr.values();

    private ValueRepresentations() {}

    /** The representation of a standard element; UN for private and unknown ones, LO for private creators. */
    public static Vr of(int tag) {
        if ((tag & 0xFFFF) == 0) {
            return Vr.UL;
        }
        if (Tag.isPrivate(tag)) {
            return Tag.isPrivateCreator(tag) ? Vr.LO : Vr.UN;
        }
        int group = tag >>> 16;
        boolean repeating = (group & 0xFF00) == 0x5000 || (group & 0xFF00) == 0x6000;
        int listed = repeating ? tag & 0xFF00FFFF : tag;
        long key = (listed & 0xFFFFFFFFL) << 8;
        int at = Arrays.binarySearch(TAG_AND_VR, key);
        int found = at >= 0 ? at : -at - 1;
        boolean known = found < TAG_AND_VR.length && TAG_AND_VR[found] >> 8 == key >> 8;
        return known ? VRS[(int) (TAG_AND_VR[found] & 0xFF)] : Vr.UN;
    }

    private static long[] load() {
        try (InputStream in = ValueRepresentations.class.getResourceAsStream(RESOURCE);
                BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
            return lines.lines()
                    .filter(line -> !line.startsWith("#"))
                    .flatMapToLong(line -> {
                        String[] words = line.split(" ");
                        int vr = Vr.valueOf(words[0]).ordinal();
                        return Arrays.stream(words).skip(1).mapToLong(hex -> Long.parseLong(hex, 16) << 8 | vr);
                    })
                    .sorted()
                    .toArray();
        } catch (IOException e) {
            throw new UncheckedIOException("the application's own table " + RESOURCE + " cannot be read", e);
        }
    }
}
