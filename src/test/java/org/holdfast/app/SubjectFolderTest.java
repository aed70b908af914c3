package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SubjectFolderTest {

    private static final String EXAM =
            "{\"label\": \"6 mo\", \"folder\": \"ct\", \"date\": \"2030-07-01\"," + " \"posture\": \"supine\"}";
    private static final String SUBJECT =
            "{\"code\": \"S-1\", \"surgeryDate\": \"2030-01-01\", \"construct\": \"c.json\"," + " \"exams\": [" + EXAM
                    + "]}";

    @TempDir
    Path folder;

    private SubjectFolder read(String json) throws Exception {
        Files.writeString(folder.resolve("subject.json"), json, StandardCharsets.UTF_8);
        return SubjectFolder.read(folder);
    }

    private void assertRefused(String json, String words) {
        UseCaseException refusal = assertThrows(UseCaseException.class, () -> read(json));
        assertEquals(folder.resolve("subject.json") + ": " + words, refusal.getMessage());
    }

    private static String changed(String from, String to) {
        String json = SUBJECT.replace(from, to);
        assertTrue(!json.equals(SUBJECT), from);
        return json;
    }

    @Test
    void readsEveryField() throws Exception {
        SubjectFolder subject = read(SUBJECT);
        assertEquals("S-1", subject.code());
        assertEquals(LocalDate.of(2030, 1, 1), subject.surgeryDate());
        assertEquals(folder.resolve("c.json"), subject.construct());
        SubjectFolder.Exam exam = subject.exams().get(0);
        assertEquals("6 mo", exam.label());
        assertEquals(folder.resolve("ct"), exam.folder());
        assertEquals(Optional.of(LocalDate.of(2030, 7, 1)), exam.date());
        assertEquals(Optional.of("supine"), exam.posture());
    }

    @Test
    void dateAndPostureMayBeLeftOut() throws Exception {
        SubjectFolder.Exam exam = read(changed(EXAM, "{\"label\": \"6 mo\", \"folder\": \"ct\"}"))
                .exams()
                .get(0);
        assertEquals(Optional.empty(), exam.date());
        assertEquals(Optional.empty(), exam.posture());
    }

    @Test
    void refusesUnknownFieldsWithTheirPath() {
        assertRefused(
                changed("\"code\"", "\"name\": \"x\", \"code\""),
                "name: unknown field; known are [code, construct, datesShifted, exams, surgeryDate]");
        assertRefused(
                changed("\"label\"", "\"title\": \"x\", \"label\""),
                "exams[0].title: unknown field; known are [date, folder, label, posture, series]");
    }

    @Test
    void refusesFieldsThatAreMissingOrOfAnotherType() {
        assertRefused(changed("\"code\": \"S-1\", ", ""), "code: expected a text, found nothing");
        assertRefused(changed("\"S-1\"", "1"), "code: expected a text, found 1");
        assertRefused(changed("\"S-1\"", "\" \""), "code: expected a text, found \" \"");
        assertRefused(changed("\"c.json\"", "null"), "construct: expected a text, found null");
        assertRefused(
                changed("2030-01-01", "2030-02-30"),
                "surgeryDate: expected a date such as 2030-01-31, found 2030-02-30");
        assertRefused(changed("2030-07-01", "July"), "exams[0].date: expected a date such as 2030-01-31, found July");
        assertRefused(changed("\"supine\"", "3"), "exams[0].posture: expected a text, found 3");
        assertRefused(changed("\"label\": \"6 mo\", ", ""), "exams[0].label: expected a text, found nothing");
        assertRefused(
                changed("\"ct\"", "\"c\\u0000t\""),
                "exams[0].folder: not a path on this system: " + "Nul character not allowed");
    }

    @Test
    void refusesASubjectWithoutExams() {
        assertRefused(changed("[" + EXAM + "]", "[]"), "exams: expected at least one exam, found []");
        assertRefused(changed("[" + EXAM + "]", "{}"), "exams: expected at least one exam, found {}");
        assertRefused(changed(EXAM, "5"), "exams[0]: expected an object, found 5");
    }

    @Test
    void refusesWhatIsNoSubject() {
        assertRefused("", "expected an object, found nothing");
        assertRefused("[]", "expected an object, found []");
        UseCaseException cut = assertThrows(UseCaseException.class, () -> read("{\"code\": "));
        assertTrue(cut.getMessage().contains("not JSON"), cut.getMessage());
        UseCaseException missing =
                assertThrows(UseCaseException.class, () -> SubjectFolder.read(folder.resolve("none")));
        assertTrue(missing.getMessage().contains("cannot be read"), missing.getMessage());
    }
}
