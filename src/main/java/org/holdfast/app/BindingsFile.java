package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A person's own keys and mouse, {@code {keys {ACT: [KEYS]}, mouse {ACT: GESTURE}}}; what is not named stays as it is. What
 * the words mean is the window's affair.
 *
 * @param keys keys by the name of what they do
 * @param mouse gesture by the name of what it does
 */
public record BindingsFile(Map<String, List<String>> keys, Map<String, String> mouse) {

    public BindingsFile {
        keys = Map.copyOf(keys);
        mouse = Map.copyOf(mouse);
    }

    /** Where the document lies: {@code Holdfast/bindings.json} in the person's home. */
    public static Path place() {
        return Path.of(System.getProperty("user.home"), "Holdfast", "bindings.json");
    }

    /**
     * Reads the document; empty if there is none.
     *
     * @throws UseCaseException if it is damaged; names file, place, what was expected and found
     */
    public static Optional<BindingsFile> read(Path file) throws UseCaseException {
        if (!Files.exists(file)) {
            return Optional.empty();
        }
        JsonCursor root = new JsonCursor(JsonFile.read(file), file.toString());
        for (String name : root.names()) {
            if (!name.equals("keys") && !name.equals("mouse")) {
                throw new UseCaseException(file + ": " + name + ": unknown field; known are keys and mouse");
            }
        }
        Map<String, List<String>> keys = new LinkedHashMap<>();
        for (String act : names(root.field("keys"))) {
            List<String> each = new ArrayList<>();
            for (JsonCursor key : root.field("keys").field(act).list()) {
                each.add(key.text());
            }
            keys.put(act, each);
        }
        Map<String, String> mouse = new LinkedHashMap<>();
        for (String act : names(root.field("mouse"))) {
            mouse.put(act, root.field("mouse").field(act).text());
        }
        return Optional.of(new BindingsFile(keys, mouse));
    }

    private static List<String> names(JsonCursor object) throws UseCaseException {
        JsonNode node = object.node();
        return node.isMissingNode() ? List.of() : object.names();
    }
}
