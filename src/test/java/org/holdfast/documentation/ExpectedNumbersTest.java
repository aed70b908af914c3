package org.holdfast.documentation;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Whoever expects a number with decimals says where it comes from. */
final class ExpectedNumbersTest {

    /** An expected value with two decimals or more. */
    private static final Pattern EXPECTED_NUMBER = Pattern.compile("assertEquals\\(\\s*(-?\\d+\\.\\d{2,})");

    private static final Pattern SOURCE = Pattern.compile("// (Source|Computed|By hand|Phantom): \\S");

    private static final Pattern METHOD_START = Pattern.compile("^\\s*@(Test|ParameterizedTest|Property|Example)\\b");

    @Test
    void carryTheirSourceOnALineAbove() throws IOException {
        List<String> bare = new ArrayList<>();
        try (Stream<Path> files = Files.walk(Path.of("src/test/java"))) {
            for (Path file :
                    (Iterable<Path>) files.filter(path -> path.toString().endsWith(".java"))::iterator) {
                for (int line : linesWithoutSource(Files.readString(file, StandardCharsets.UTF_8))) {
                    bare.add(file + ":" + line);
                }
            }
        }
        assertEquals(List.of(), bare);
    }

    @Test
    void areFoundWhereTheirMethodNamesNoSource() {
        String sourced =
                """
                @Test
                void a() {
                    // By hand: 1 - 2 / 3.
                    assertEquals(0.3333, share, 5e-5);
                }
                """;
        String bare =
                """
                @Test
                void b() {
                    %s(
                            -0.4915, kappa, 5e-5);
                }
                """
                        .formatted("assertEquals"); // so that this very test does not find it
        assertEquals(List.of(), linesWithoutSource(sourced));
        assertEquals(List.of(3), linesWithoutSource(bare));
        assertEquals(List.of(), linesWithoutSource(bare.replace("void b() {", "void b() { kappa = -0.4915;")));
        // By hand: five lines of the first method and the third of the second.
        assertEquals(List.of(8), linesWithoutSource(sourced + bare));
    }

    /**
     * Numbers of lines, from 1, at which a number is expected that has no source above it in its test and is not one of
     * the test's own inputs either.
     */
    private static List<Integer> linesWithoutSource(String code) {
        List<String> lines = code.lines().toList();
        List<Integer> without = new ArrayList<>();
        Matcher found = EXPECTED_NUMBER.matcher(code);
        while (found.find()) {
            int line = (int) code.substring(0, found.start()).lines().count();
            String number = found.group(1);
            if (testAbove(lines, line - 1).noneMatch(above -> above.contains(number) || isSource(above))) {
                without.add(line);
            }
        }
        return without;
    }

    /** The lines of the test above the given line, whose index is from 0, from below. */
    private static Stream<String> testAbove(List<String> lines, int index) {
        return Stream.iterate(index - 1, i -> i >= 0, i -> i - 1)
                .map(lines::get)
                .takeWhile(line -> !METHOD_START.matcher(line).find());
    }

    private static boolean isSource(String line) {
        return SOURCE.matcher(line).find();
    }
}
