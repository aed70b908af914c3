package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.holdfast.app.ReportDocument;
import org.holdfast.cases.SampleSubject;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ContactCommandTest {

    @TempDir
    Path folder;

    private final CapturedTerminal terminal = new CapturedTerminal();

    private int run(Path construct, String... more) {
        List<String> arguments = new ArrayList<>(List.of("contact", "--construct", construct.toString()));
        arguments.addAll(List.of(more));
        return terminal.run(CapturedTerminal::commands, arguments.toArray(String[]::new));
    }

    private static String surgery() {
        return SampleSubject.exams().get(0).folder().toString();
    }

    private Path file(String name, String text) throws Exception {
        return Files.writeString(folder.resolve(name), text, StandardCharsets.UTF_8);
    }

    private void assertRefused(int code, String... words) {
        assertEquals(ExitCode.NOT_POSSIBLE, code, terminal.messages());
        assertEquals("", terminal.result());
        for (String word : words) {
            assertTrue(terminal.messages().contains(word), terminal.messages());
        }
    }

    @Test
    void jsonIsTheDocumentAndNothingElse() throws Exception {
        int code = run(
                SampleSubject.constructFile(),
                "--exam",
                surgery() + "#" + SampleSubject.construct().referenceSeriesUid() + "=first day",
                "--exam",
                SampleSubject.exams().get(1).folder().toString(),
                "--json");
        assertEquals(ExitCode.DONE, code, terminal.messages());
        JsonNode document = new ObjectMapper().readTree(terminal.result());
        JsonNode whole = new ObjectMapper().readTree(new ReportDocument().write(SampleSubject.report()));
        assertEquals("first day", document.get("exams").get(0).get("label").asText());
        // The label is made from the days where none is given.
        JsonNode later = document.get("exams").get(1);
        assertEquals("3 mo", later.get("label").asText());
        assertEquals(whole.get("exams").get(1).get("pose"), later.get("pose"));
        // Interfaces only, and these as measure has them.
        assertEquals(2, later.get("parts").size());
        for (int n = 0; n < 2; n++) {
            assertEquals(
                    whole.get("exams").get(1).get("parts").get(n),
                    later.get("parts").get(n));
        }
    }

    @Test
    void goesOnWithoutAnExamThatIsNotThere() throws Exception {
        int code = run(
                SampleSubject.constructFile(),
                "--exam",
                folder.resolve("nowhere").toString(),
                "--exam",
                surgery(),
                "--json");
        assertEquals(ExitCode.DONE, code, terminal.messages());
        JsonNode document = new ObjectMapper().readTree(terminal.result());
        assertEquals(1, document.get("exams").size());
        assertEquals(
                "EXAM_NOT_READ", document.get("findings").get(0).get("code").asText());
    }

    @Test
    void refusesWhereNothingCanBeRead() {
        assertRefused(
                run(SampleSubject.constructFile(), "--exam", folder.toString()),
                "holdfast: No exam could be read.",
                "no DICOM image was found");
    }

    @Test
    void refusesASeriesThatIsNotThere() {
        assertRefused(
                run(SampleSubject.constructFile(), "--exam", surgery() + "#1.2.3"),
                "the series is not among the 1 found");
    }

    @Test
    void refusesAConstructWithAnUnknownFieldByItsPath() throws Exception {
        String json = Files.readString(SampleSubject.constructFile());
        Path odd = file("odd.json", json.replaceFirst("\"porosity\"", "\"colour\" : \"grey\", \"porosity\""));
        assertRefused(run(odd, "--exam", surgery()), "odd.json", "components[0].porous.colour");
    }

    @Test
    void refusesDocumentsThatAreNotThere() {
        assertRefused(run(folder.resolve("none.json"), "--exam", surgery()), "none.json");
        assertRefused(
                run(SampleSubject.constructFile(), "--exam", surgery(), "--settings", folder + "/no-settings.json"),
                "no-settings.json");
        assertRefused(
                run(SampleSubject.constructFile(), "--exam", surgery(), "--poses", folder + "/no-poses.json"),
                "no-poses.json");
    }

    @Test
    void refusesAWrongSettingByName() throws Exception {
        Path settings = file("settings.json", "{\"fluidHu\": 500}");
        assertRefused(
                run(SampleSubject.constructFile(), "--exam", surgery(), "--settings", settings.toString()),
                "settings.json: fluidHu must lie in [-100.0, 150.0], got 500.0");
    }

    @Test
    void wrongUseIsExitCodeTwo() {
        assertEquals(ExitCode.WRONG_USE, run(SampleSubject.constructFile()));
        assertTrue(terminal.messages().contains("--exam"), terminal.messages());
        assertEquals(ExitCode.WRONG_USE, run(SampleSubject.constructFile(), "--exam", ""));
        assertTrue(terminal.messages().contains("found no folder"), terminal.messages());
        assertEquals(
                ExitCode.WRONG_USE,
                new CapturedTerminal().run(CapturedTerminal::commands, "contact", "--exam", surgery()));
    }
}
