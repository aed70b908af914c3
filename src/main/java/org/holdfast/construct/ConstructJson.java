package org.holdfast.construct;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdfast.finding.FileFailure;

/**
 * The JSON document of a construct (docs/construct.md, docs/schema/construct.schema.json). Reading is strict: unknown
 * fields are refused. Writing is deterministic: one construct gives one text, numbers as the shortest decimal that reads
 * back as the same double, lines ended by a line feed.
 */
public final class ConstructJson {

    static final String FORMAT = "holdfast-construct";
    static final int FORMAT_VERSION = 1;

    /** A construct has some hundred numbers; a larger file is something else. */
    private static final int MOST_BYTES = 16 << 20;

    static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .disable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
            .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
            .build();

    private ConstructJson() {}

    /**
     * Reads a document from a file.
     *
     * @throws ConstructReadException if the file cannot be read or breaks a rule of the format
     */
    public static Construct read(Path file) throws ConstructReadException {
        String name = file.toString();
        byte[] bytes;
        try (InputStream in = Files.newInputStream(file)) {
            bytes = in.readNBytes(MOST_BYTES + 1);
        } catch (IOException e) {
            throw new ConstructReadException(name, "", "a readable file", FileFailure.words(e), e);
        }
        if (bytes.length > MOST_BYTES) {
            throw new ConstructReadException(name, "", "at most " + MOST_BYTES + " bytes", "more", null);
        }
        Path folder = file.toAbsolutePath().getParent();
        return parse(decoded(bytes, name), name, MeshFolder.of(folder));
    }

    /**
     * Reads a document from a text; surfaces in files stay unread, and a patch cut from one is refused.
     *
     * @param name what a message calls the text
     * @throws ConstructReadException if the text breaks a rule of the format
     */
    public static Construct parse(String json, String name) throws ConstructReadException {
        return parse(json, name, MeshFolder.NONE);
    }

    /**
     * Reads a document from a text.
     *
     * @param name what a message calls the text
     * @param folder where the mesh files lie that it names
     * @throws ConstructReadException if the text breaks a rule of the format, or a mesh file cannot be read
     */
    public static Construct parse(String json, String name, Path folder) throws ConstructReadException {
        return parse(json, name, MeshFolder.of(folder));
    }

    private static Construct parse(String json, String name, MeshFolder folder) throws ConstructReadException {
        JsonNode tree;
        try {
            tree = MAPPER.readTree(json);
        } catch (JsonProcessingException e) {
            throw new ConstructReadException(name, "", "a JSON document", JsonFault.words(e), e);
        }
        return ConstructReader.read(Fields.root(name, tree), folder);
    }

    /** The document of a construct, ended by a line feed. */
    public static String write(Construct construct) {
        DefaultIndenter lines = new DefaultIndenter("  ", "\n");
        DefaultPrettyPrinter printer = new DefaultPrettyPrinter().withObjectIndenter(lines);
        return text(ConstructWriter.tree(construct), MAPPER.writer(printer)) + "\n";
    }

    static String text(JsonNode tree, com.fasterxml.jackson.databind.ObjectWriter writer) {
        try {
            return writer.writeValueAsString(tree);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree in memory could not be written", e);
        }
    }

    private static String decoded(byte[] bytes, String name) throws ConstructReadException {
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
        } catch (CharacterCodingException e) {
            throw new ConstructReadException(name, "", "text in UTF-8", "other bytes", e);
        }
    }
}
