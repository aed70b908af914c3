package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;

final class ShownPathTest {

    @Test
    void belowTheHomeItBeginsWithATilde() {
        Path home = Path.of("home", "somebody");
        assertEquals(Path.of("~", "Holdfast", "demo").toString(), ShownPath.of(home.resolve("Holdfast/demo"), home));
        assertEquals(Path.of("srv", "demo").toString(), ShownPath.of(Path.of("srv", "demo"), home));
    }
}
