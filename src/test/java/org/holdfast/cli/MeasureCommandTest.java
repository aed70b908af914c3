package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.StreamSupport;
import org.holdfast.app.ReportDocument;
import org.holdfast.cases.SampleSubject;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MeasureCommandTest {

    @TempDir
    Path folder;

    private final CapturedTerminal terminal = new CapturedTerminal();

    private int run(String... more) {
        List<String> arguments = new ArrayList<>(
                List.of("measure", "--construct", SampleSubject.constructFile().toString()));
        arguments.addAll(List.of(more));
        return terminal.run(CapturedTerminal::commands, arguments.toArray(String[]::new));
    }

    private static String exam(int n) {
        return SampleSubject.exams().get(n).folder().toString();
    }

    private static List<JsonNode> all(JsonNode array) {
        return StreamSupport.stream(array.spliterator(), false).toList();
    }

    @Test
    void registersMeasuresAndWritesMaps() throws Exception {
        Path maps = folder.resolve("maps");
        // The reference exam may be named among the others again: it is measured once.
        int code = run(
                "--reference",
                exam(0) + "=surgery",
                "--exam",
                exam(0),
                "--exam",
                exam(4),
                "--map",
                maps.toString(),
                "--json");
        assertEquals(ExitCode.DONE, code, terminal.messages());
        JsonNode document = new ObjectMapper().readTree(terminal.result());
        assertEquals(2, document.get("exams").size());
        JsonNode later = document.get("exams").get(1);
        assertEquals("registered", later.get("pose").get("kind").textValue());
        List<JsonNode> broken = all(later.get("parts")).stream()
                .filter(part -> part.get("continuity").path("breaks").size() > 0)
                .toList();
        // Phantom: at 24 months screw L2 left has a gap of 0.8 mm and the right rod one of 1.0 mm, nothing else has.
        assertEquals(
                List.of("screw-l2-left", "rod-right"),
                broken.stream().map(part -> part.get("id").textValue()).toList());
        // Phantom: the rod's gap along its axis; 0.1 mm is a fifth of the pixel.
        assertEquals(
                1.0,
                broken.get(1)
                        .get("continuity")
                        .get("breaks")
                        .get(0)
                        .get("gapAlongAxisMm")
                        .doubleValue(),
                0.1);
        // The same document as the whole course has for that exam, under the label made from its days.
        JsonNode whole = new ObjectMapper().readTree(new ReportDocument().write(SampleSubject.report()));
        assertEquals(whole.get("exams").get(4), later);
        List<String> csv = Files.readAllLines(maps.resolve("cranial-face-24-mo.csv"));
        assertTrue(csv.get(0).startsWith("exam,interface,xMm,yMm,zMm,uMm,vMm,areaMm2,classByFit,"), csv.get(0));
        int samples = SampleSubject.report()
                .of("24 mo", "cranial-face")
                .orElseThrow()
                .contact()
                .orElseThrow()
                .readings()
                .size();
        assertEquals(samples + 1, csv.size());
        assertTrue(Files.size(maps.resolve("cranial-face-24-mo-fit.png")) > 0);
        assertTrue(Files.size(maps.resolve("cranial-face-24-mo.png")) > 0);
    }

    @Test
    void wrongUseIsExitCodeTwo() throws Exception {
        assertEquals(ExitCode.WRONG_USE, run());
        assertTrue(terminal.messages().contains("name at least one exam with --exam"), terminal.messages());
        assertEquals(ExitCode.WRONG_USE, run("--exam", exam(0), "--preset", "gold"));
        assertTrue(terminal.messages().contains("preset must be one of [titanium-porous,"), terminal.messages());
        Path settings = Files.writeString(folder.resolve("s.json"), "{}");
        assertEquals(
                ExitCode.WRONG_USE,
                run("--exam", exam(0), "--preset", "clipped-data", "--settings", settings.toString()));
        assertTrue(terminal.messages().contains("not both"), terminal.messages());
    }
}
