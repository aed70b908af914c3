package org.holdfast.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Takes notes of what it was asked to open. */
final class TestWindow implements WindowOpener {

    static final int CLOSED = 0;

    private final List<Optional<Path>> opened = new ArrayList<>();
    private final boolean display;

    TestWindow() {
        this(true);
    }

    TestWindow(boolean display) {
        this.display = display;
    }

    @Override
    public int open(Optional<Path> subjectFolder) {
        opened.add(subjectFolder);
        return CLOSED;
    }

    @Override
    public boolean hasDisplay() {
        return display;
    }

    List<Optional<Path>> opened() {
        return opened;
    }
}
