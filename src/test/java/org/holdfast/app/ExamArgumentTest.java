package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ExamArgumentTest {

    @TempDir
    Path folder;

    private void assertParsed(String text, String path, String series, String label) throws UseCaseException {
        ExamArgument parsed = ExamArgument.parse(text);
        assertEquals(Path.of(path), parsed.folder());
        assertEquals(Optional.ofNullable(series), parsed.seriesUid());
        assertEquals(Optional.ofNullable(label), parsed.label());
        assertEquals(Optional.empty(), parsed.date());
    }

    @Test
    void readsFolderSeriesAndLabel() throws Exception {
        assertParsed("ct", "ct", null, null);
        assertParsed("ct=6 mo", "ct", null, "6 mo");
        assertParsed("ct#1.2.3", "ct", "1.2.3", null);
        assertParsed("ct#1.2.3=6 mo", "ct", "1.2.3", "6 mo");
        assertParsed("ct#1.2.3=no #1", "ct", "1.2.3", "no #1");
    }

    @Test
    void anEmptySeriesOrLabelIsNone() throws Exception {
        assertParsed("ct#=", "ct", null, null);
        assertParsed("ct= ", "ct", null, null);
    }

    @Test
    void takesAFolderThatHasTheSignsInItsNameAsItIs() throws Exception {
        Path odd = Files.createDirectory(folder.resolve("a=b#c"));
        assertParsed(odd.toString(), odd.toString(), null, null);
        assertParsed(odd + "=6 mo", odd.toString(), null, "6 mo");
        assertParsed(odd + "#1.2.3", odd.toString(), "1.2.3", null);
        assertParsed(odd + "#1.2.3=6 mo", odd.toString(), "1.2.3", "6 mo");
    }

    @Test
    void refusesWhatNamesNoFolder() {
        assertThrows(UseCaseException.class, () -> ExamArgument.parse(""));
        assertThrows(UseCaseException.class, () -> ExamArgument.parse(" =6 mo"));
        assertThrows(UseCaseException.class, () -> ExamArgument.parse("c\0t"));
    }

    @Test
    void aLabelMayHoldWhatNoPathCan() throws Exception {
        assertParsed("ct=6\0mo", "ct", null, "6\0mo");
    }
}
