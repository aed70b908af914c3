package org.holdfast.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdfast.construct.JsonFault;
import org.holdfast.finding.FileFailure;

/** A JSON document in a file as a tree; one with a repeated field or something after its end is refused. */
final class JsonFile {

    /** Characters of what was found that a message shows. */
    private static final int LONGEST = 80;

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private JsonFile() {}

    /**
     * Reads a document; a missing node for an empty file.
     *
     * @throws UseCaseException if the file cannot be read or is no JSON; names file, line and column
     */
    static JsonNode read(Path file) throws UseCaseException {
        try {
            return MAPPER.readTree(Files.readString(file, StandardCharsets.UTF_8));
        } catch (JsonProcessingException e) {
            throw new UseCaseException(file + ": not JSON: " + JsonFault.words(e), e);
        } catch (IOException e) {
            throw new UseCaseException(file + ": cannot be read: " + FileFailure.words(e), e);
        }
    }

    /** What stands at a place where something else was expected; the start of it if it is long. */
    static String found(JsonNode node) {
        if (node.isMissingNode()) {
            return "nothing";
        }
        String text = node.toString();
        return text.length() <= LONGEST ? text : text.substring(0, LONGEST) + "…";
    }
}
