package org.holdfast.documentation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.holdfast.app.Caution;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** Keeps what is written in step with what is there. Runs from the top of the project. */
final class DocumentationTest {

    /** About a printed page. */
    private static final int LONGEST_DECISION_CHARACTERS = 2600;

    private static final List<String> DECISION_PARTS =
            List.of("## Context", "## Options", "## Choice", "## Consequences", "## Confirmation");

    private static final Pattern NAMED_TEST = Pattern.compile("`([A-Z]\\w*(?:Test|IT))(?:\\.(\\w+))?`");

    @Test
    void linksLeadToFilesThatExist() throws IOException {
        List<String> broken = new ArrayList<>();
        for (Page page : Page.all()) {
            page.linkedFiles().stream()
                    .filter(target -> !Files.exists(target))
                    .forEach(target -> broken.add(page.path() + " -> " + target));
        }
        assertEquals(List.of(), broken);
    }

    @Test
    void testsThatAreNamedExist() throws IOException {
        List<String> missing = new ArrayList<>();
        for (Page page : Page.all()) {
            NAMED_TEST.matcher(page.text()).results().forEach(named -> {
                if (!isTest(named.group(1), named.group(2))) {
                    missing.add(page.path() + " -> " + named.group());
                }
            });
        }
        assertEquals(List.of(), missing);
    }

    @Test
    void readmeBeginsWithTwoCommandsAndTheCheckRunsTheSecond() throws IOException {
        List<String> commands = Page.at("README.md").commands();
        assertEquals(
                "mvn -q -DskipTests package && target/holdfast/bin/holdfast demo course demo-course --open",
                commands.get(0));
        assertEquals("mvn -B -ntp verify", commands.get(1));
        String check = Files.readString(Path.of(".ci/run"), StandardCharsets.UTF_8);
        assertTrue(check.lines().anyMatch(commands.get(1)::equals), check);
        assertTrue(Files.isExecutable(Path.of(".ci/run")));
    }

    @Test
    void readmeCarriesTheCaution() throws IOException {
        assertTrue(Page.at("README.md").text().contains(Caution.TEXT));
    }

    @Test
    void decisionsHaveAllPartsOnOnePageAndAreListed() throws IOException {
        String index = Page.at("docs/decisions/README.md").text();
        List<Page> decisions = Page.all().stream()
                .filter(page ->
                        page.path().startsWith("docs/decisions") && !page.path().endsWith("README.md"))
                .toList();
        assertTrue(decisions.size() >= 12, () -> "found " + decisions.size());
        for (Page decision : decisions) {
            String name = decision.path().getFileName().toString();
            assertTrue(name.matches("\\d{4}-[a-z0-9-]+\\.md"), name);
            assertTrue(index.contains("(" + name + ")"), name + " is not in the index");
            assertEquals(
                    DECISION_PARTS,
                    decision.text()
                            .lines()
                            .filter(line -> line.startsWith("## "))
                            .toList(),
                    name);
            assertTrue(decision.text().length() <= LONGEST_DECISION_CHARACTERS, name + " is too long");
        }
    }

    @Test
    void dependenciesAreThoseOfTheBuild() throws Exception {
        Set<String> described = Page.at("docs/dependencies.md").tableRowsThatBeginWithCode().stream()
                .flatMap(row -> Stream.of(row.get(0).split(", ")))
                .collect(Collectors.toCollection(TreeSet::new));
        assertEquals(artifactsOfTheBuild(), described);
    }

    /** Artifacts of all dependencies and plug-ins that the build file names, also in its profiles. */
    private static Set<String> artifactsOfTheBuild() throws Exception {
        Document build = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(Path.of("pom.xml").toFile());
        Set<String> artifacts = new TreeSet<>();
        for (String kind : List.of("dependency", "plugin")) {
            NodeList elements = build.getElementsByTagName(kind);
            for (int i = 0; i < elements.getLength(); i++) {
                Element element = (Element) elements.item(i);
                artifacts.add(element.getElementsByTagName("artifactId").item(0).getTextContent());
            }
        }
        return artifacts;
    }

    private static boolean isTest(String type, String method) {
        try (Stream<Path> files = Files.walk(Path.of("src/test/java"))) {
            List<Path> found =
                    files.filter(file -> file.endsWith(type + ".java")).toList();
            return found.size() == 1
                    && (method == null
                            || Files.readString(found.get(0), StandardCharsets.UTF_8)
                                    .contains(" void " + method + "("));
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }
}
