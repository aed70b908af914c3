package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class BindingsFileTest {

    @TempDir
    private Path folder;

    @Test
    void withoutADocumentThereAreNone() throws UseCaseException {
        assertEquals(Optional.empty(), BindingsFile.read(folder.resolve("bindings.json")));
    }

    @Test
    void readsKeysAndMouse() throws Exception {
        Path file = written("{\"keys\": {\"LINK\": [\"Ctrl+L\"]}, \"mouse\": {\"PAN\": \"Ctrl+drag\"}}");
        assertEquals(
                Optional.of(new BindingsFile(Map.of("LINK", List.of("Ctrl+L")), Map.of("PAN", "Ctrl+drag"))),
                BindingsFile.read(file));
    }

    @Test
    void eachHalfMayBeLeftOut() throws Exception {
        assertEquals(Optional.of(new BindingsFile(Map.of(), Map.of())), BindingsFile.read(written("{}")));
    }

    @Test
    void damageNamesFilePlaceExpectedAndFound() throws Exception {
        Path file = written("{\"keys\": {\"LINK\": \"J\"}}");
        String message = assertThrows(UseCaseException.class, () -> BindingsFile.read(file))
                .getMessage();
        assertEquals(file + ".keys.LINK: expected an array, found \"J\"", message);
        Path other = written("{\"key\": {}}");
        assertTrue(assertThrows(UseCaseException.class, () -> BindingsFile.read(other))
                .getMessage()
                .contains("key: unknown field"));
    }

    private Path written(String json) throws IOException {
        return Files.writeString(folder.resolve("bindings.json"), json);
    }
}
