package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** The schema in docs, the sample document and the reader agree. */
class ConstructSchemaTest {

    private static final Path SCHEMA = Path.of("docs", "schema", "construct.schema.json");
    private static final JsonMapper MAPPER = new JsonMapper();

    private final JsonNode schema = read(SCHEMA);
    private final Set<String> used = new TreeSet<>();

    @Test
    void acceptsTheSampleDocument() throws IOException {
        assertEquals(List.of(), problems(MAPPER.readTree(SampleConstruct.json())));
    }

    @Test
    void acceptsWhatIsWritten() throws IOException {
        JsonNode written = MAPPER.readTree(ConstructJson.write(SampleConstruct.construct()));

        assertEquals(List.of(), problems(written));
    }

    @Test
    void hasNoFieldThatTheSampleDoesNotUse() throws IOException {
        problems(MAPPER.readTree(SampleConstruct.json()));
        assertEquals(List.of(), problems(MAPPER.readTree(SampleConstruct.withSurfaces(new byte[0]))));

        Set<String> declared = new TreeSet<>();
        declare(schema, "", declared);
        assertEquals(declared, used);
    }

    @Test
    void findsAFieldThatItDoesNotKnow() throws IOException {
        String json = SampleConstruct.json().replace("\"radiusMm\": 13}", "\"radius\": 13}");

        List<String> problems = problems(MAPPER.readTree(json));

        assertTrue(problems.contains("$.components[0].cylinder.radius: unknown field"), problems.toString());
        assertTrue(problems.contains("$.components[0].cylinder: radiusMm is missing"), problems.toString());
    }

    @Test
    void listsTheWordsOfEveryConstant() {
        assertEquals(words(ComponentKind.values()), enumAt("/$defs/component/properties/kind"));
        assertEquals(words(Material.values()), enumAt("/$defs/component/properties/material"));
        assertEquals(words(JoinKind.values()), enumAt("/$defs/join/properties/kind"));
        assertEquals(words(Filler.values()), enumAt("/$defs/interface/properties/filler"));
        assertEquals(words(PlanePatch.Outline.values()), enumAt("/$defs/planePatch/properties/shape"));
    }

    private List<String> problems(JsonNode document) {
        List<String> problems = new ArrayList<>();
        check(schema, "", document, "$", problems);
        return problems;
    }

    /** The part of JSON Schema that our schema uses: types, names, required, enum, const, items, oneOf, limits. */
    private void check(JsonNode rule, String rulePath, JsonNode value, String path, List<String> problems) {
        if (rule.has("$ref")) {
            String target = rule.get("$ref").textValue().substring(1);
            check(schema.at(target), target, value, path, problems);
            return;
        }
        if (rule.has("oneOf") && !value.isMissingNode()) {
            checkOneOf(rule, value, path, problems);
        }
        if (rule.has("const") && !rule.get("const").equals(value)) {
            problems.add(path + ": must be " + rule.get("const"));
        }
        if (rule.has("enum") && !contains(rule.get("enum"), value)) {
            problems.add(path + ": " + value + " is not in the list");
        }
        if (rule.has("type") && !isOfType(rule.get("type").textValue(), value)) {
            problems.add(path + ": is no " + rule.get("type").textValue());
            return;
        }
        checkText(rule, value, path, problems);
        checkNumber(rule, value, path, problems);
        if (value.isObject() && rule.has("properties")) {
            checkObject(rule, rulePath, value, path, problems);
        }
        if (value.isArray()) {
            if (value.size() < rule.path("minItems").asInt(0)
                    || value.size() > rule.path("maxItems").asInt(Integer.MAX_VALUE)) {
                problems.add(path + ": has " + value.size() + " elements");
            }
            for (int n = 0; n < value.size(); n++) {
                check(rule.get("items"), rulePath + "/items", value.get(n), path + "[" + n + "]", problems);
            }
        }
    }

    private void checkOneOf(JsonNode rule, JsonNode value, String path, List<String> problems) {
        int matches = 0;
        for (JsonNode choice : rule.get("oneOf")) {
            List<String> found = new ArrayList<>();
            if (choice.has("$ref")) {
                JsonNode target = schema.at(choice.get("$ref").textValue().substring(1));
                boolean meant = target.at("/properties/kind/const").equals(value.path("kind"));
                if (meant) {
                    check(choice, "", value, path, problems);
                    matches++;
                }
                continue;
            }
            choice.get("required").forEach(name -> {
                if (!value.has(name.textValue())) {
                    found.add(name.textValue());
                }
            });
            matches += found.isEmpty() ? 1 : 0;
        }
        if (matches != 1) {
            problems.add(path + ": " + matches + " of the alternatives fit");
        }
    }

    private void checkObject(JsonNode rule, String rulePath, JsonNode value, String path, List<String> problems) {
        rule.path("required").forEach(name -> {
            if (!value.has(name.textValue())) {
                problems.add(path + ": " + name.textValue() + " is missing");
            }
        });
        assertEquals(false, rule.get("additionalProperties").booleanValue(), rulePath);
        value.fieldNames().forEachRemaining(name -> {
            JsonNode property = rule.get("properties").path(name);
            if (property.isMissingNode()) {
                problems.add(path + "." + name + ": unknown field");
            } else {
                String at = rulePath + "/properties/" + name;
                used.add(at);
                check(property, at, value.get(name), path + "." + name, problems);
            }
        });
    }

    private static void checkText(JsonNode rule, JsonNode value, String path, List<String> problems) {
        if (!value.isTextual()) {
            return;
        }
        String text = value.textValue();
        boolean fits = text.length() <= rule.path("maxLength").asInt(Integer.MAX_VALUE)
                && text.length() >= rule.path("minLength").asInt(0)
                && (!rule.has("pattern")
                        || java.util.regex.Pattern.compile(rule.get("pattern").textValue())
                                .matcher(text)
                                .find());
        if (!fits) {
            problems.add(path + ": " + text + " does not fit");
        }
    }

    private static void checkNumber(JsonNode rule, JsonNode value, String path, List<String> problems) {
        if (!value.isNumber()) {
            return;
        }
        double x = value.doubleValue();
        boolean fits = x >= rule.path("minimum").asDouble(Double.NEGATIVE_INFINITY)
                && x <= rule.path("maximum").asDouble(Double.POSITIVE_INFINITY)
                && !(rule.has("exclusiveMinimum")
                        && x <= rule.get("exclusiveMinimum").doubleValue())
                && !(rule.has("exclusiveMaximum")
                        && x >= rule.get("exclusiveMaximum").doubleValue());
        if (!fits) {
            problems.add(path + ": " + x + " is out of range");
        }
    }

    private static boolean isOfType(String type, JsonNode value) {
        return switch (type) {
            case "object" -> value.isObject();
            case "array" -> value.isArray();
            case "string" -> value.isTextual();
            case "integer" -> value.isIntegralNumber();
            case "number" -> value.isNumber();
            default -> throw new AssertionError("a type that the schema should not use: " + type);
        };
    }

    private static boolean contains(JsonNode list, JsonNode value) {
        for (JsonNode element : list) {
            if (element.equals(value)) {
                return true;
            }
        }
        return false;
    }

    private static void declare(JsonNode node, String path, Set<String> declared) {
        JsonNode properties = node.path("properties");
        properties.fieldNames().forEachRemaining(name -> {
            declared.add(path + "/properties/" + name);
            declare(properties.get(name), path + "/properties/" + name, declared);
        });
        JsonNode definitions = node.path("$defs");
        definitions
                .fieldNames()
                .forEachRemaining(name -> declare(definitions.get(name), path + "/$defs/" + name, declared));
    }

    private static Set<String> words(Worded[] constants) {
        Set<String> words = new TreeSet<>();
        Arrays.stream(constants).forEach(constant -> words.add(constant.word()));
        return words;
    }

    private Set<String> enumAt(String pointer) {
        Set<String> words = new TreeSet<>();
        schema.at(pointer).get("enum").forEach(word -> words.add(word.textValue()));
        return words;
    }

    private static JsonNode read(Path file) {
        try {
            return MAPPER.readTree(Files.readString(file));
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }
}
