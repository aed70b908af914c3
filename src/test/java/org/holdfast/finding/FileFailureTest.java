package org.holdfast.finding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.EOFException;
import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class FileFailureTest {

    @Test
    void namesWhatAFileSystemExceptionOnlyHints(@TempDir Path folder) throws IOException {
        IOException missing = assertThrows(IOException.class, () -> Files.readString(folder.resolve("none.json")));
        assertEquals("no such file or folder", FileFailure.words(missing));
        Path latin = Files.write(folder.resolve("latin.json"), new byte[] {'"', (byte) 0xFC, '"'});
        IOException coding = assertThrows(IOException.class, () -> Files.readString(latin));
        assertEquals("bytes that are not UTF-8", FileFailure.words(coding));
        assertEquals("no permission to use it", FileFailure.words(new AccessDeniedException("/somewhere/scan.dcm")));
    }

    @Test
    void passesOnAMessageAndNamesTheKindWhereThereIsNone() {
        assertEquals("Is a directory", FileFailure.words(new IOException("Is a directory")));
        assertEquals("EOFException", FileFailure.words(new EOFException()));
    }
}
