package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.app.DemoSubject.Size;
import org.holdfast.app.SubjectFolder;
import org.holdfast.desktop.viewmodel.FirstRunViewModel.Status;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FirstRunViewModelTest {

    @TempDir
    Path home;

    private final List<Path> opened = new ArrayList<>();
    private final SameThreadRunner runner = SameThreadRunner.held();
    private Path place;
    private FirstRunViewModel model;

    @BeforeEach
    void make() {
        place = home.resolve("demo-subject");
        model = new FirstRunViewModel(runner, place, Size.SMALL, opened::add);
    }

    private void putSubject() throws IOException {
        Files.createDirectories(place);
        Files.writeString(place.resolve(SubjectFolder.DOCUMENT), "{}");
    }

    @Test
    void opensTheDemoThatWasMadeEarlier() throws Exception {
        assertEquals(Optional.empty(), model.earlier());
        putSubject();
        assertEquals(Optional.of(place), model.earlier());
        model.openDemo();
        assertInstanceOf(Status.Making.class, model.statusProperty().get());
        runner.next();
        assertEquals(List.of(place), opened);
        assertEquals(new Status.Idle(), model.statusProperty().get());
    }

    @Test
    void tellsHowFarItIsAndCanBeStoppedOnTheWay() {
        List<Status.Making> told = new ArrayList<>();
        model.statusProperty().subscribe(status -> {
            if (status instanceof Status.Making making) {
                told.add(making);
                if (making.fraction() > 0.02) {
                    model.stop();
                }
            }
        });
        model.openDemo();
        runner.next();
        Status.Making last = told.get(told.size() - 1);
        assertTrue(last.fraction() > 0.02 && last.fraction() < 0.5, last::toString);
        assertFalse(last.activity().isEmpty());
        assertEquals(new Status.Idle(), model.statusProperty().get());
        assertEquals(List.of(), opened);
        assertFalse(Files.exists(place));
    }

    @Test
    void doesNotBeginTwice() throws Exception {
        putSubject();
        model.openDemo();
        model.openDemo();
        assertTrue(runner.next());
        assertFalse(runner.next());
        assertEquals(1, opened.size());
    }

    @Test
    void canBeStopped() {
        model.openDemo();
        model.stop();
        runner.next();
        assertEquals(new Status.Idle(), model.statusProperty().get());
        assertEquals(List.of(), opened);
        assertFalse(Files.exists(place));
    }

    @Test
    void saysWhyTheDemoCouldNotBeMade() throws Exception {
        Files.writeString(home.resolve("file"), "a file where a folder should be");
        FirstRunViewModel blocked =
                new FirstRunViewModel(runner, home.resolve("file").resolve("demo"), Size.SMALL, opened::add);
        blocked.openDemo();
        runner.next();
        Status.Failed failed =
                assertInstanceOf(Status.Failed.class, blocked.statusProperty().get());
        assertTrue(failed.reason().contains("file"), failed.reason());
        assertEquals(List.of(), opened);
    }

    @Test
    void doesNotTakeThePlaceOfWhatThePersonOpenedMeanwhile() throws Exception {
        putSubject();
        model.openDemo();
        model.leave();
        runner.next();
        assertEquals(List.of(), opened);
        model.arrive();
        model.openDemo();
        runner.next();
        assertEquals(List.of(place), opened);
    }
}
