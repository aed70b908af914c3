package org.holdfast.construct;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The committed document that uses every field of the format. */
final class SampleConstruct {

    private SampleConstruct() {}

    static String json() {
        try (InputStream in = SampleConstruct.class.getResourceAsStream("every-field.json")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Construct construct() {
        try {
            return ConstructJson.parse(json(), "every-field.json");
        } catch (ConstructReadException e) {
            throw new AssertionError(e);
        }
    }
}
