package org.holdfast.construct;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.TreeSet;

/** The hash of a construct without its labels. */
final class ConstructHash {

    private ConstructHash() {}

    static String of(Construct construct) {
        String canonical =
                ConstructJson.text(canonical(ConstructWriter.tree(construct)), ConstructJson.MAPPER.writer());
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            return HexFormat.of().formatHex(digest.digest(canonical.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** The same tree with keys sorted, labels left out, and −0 written as 0, which is the same place. */
    private static JsonNode canonical(JsonNode node) {
        if (node.isObject()) {
            ObjectNode sorted = JsonNodeFactory.instance.objectNode();
            TreeSet<String> names = new TreeSet<>();
            node.fieldNames().forEachRemaining(names::add);
            names.remove("label");
            names.forEach(name -> sorted.set(name, canonical(node.get(name))));
            return sorted;
        }
        if (node.isArray()) {
            ArrayNode list = JsonNodeFactory.instance.arrayNode();
            node.forEach(element -> list.add(canonical(element)));
            return list;
        }
        return node.isDouble() ? JsonNodeFactory.instance.numberNode(node.doubleValue() + 0.0) : node;
    }
}
