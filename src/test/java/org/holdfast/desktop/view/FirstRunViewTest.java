package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import javafx.event.Event;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.StackPane;
import org.holdfast.app.DemoSubject.Size;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.viewmodel.BackgroundRunner;
import org.holdfast.desktop.viewmodel.FirstRunViewModel;
import org.holdfast.desktop.viewmodel.RunningWork;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

@ExtendWith(WindowTest.class)
final class FirstRunViewTest {

    /** Begins work and never does it; the test reports in its place. */
    private static final class Begun implements BackgroundRunner {
        private final RunningWork work = new RunningWork(Runnable::run);
        private Consumer<Throwable> onFailure = failure -> {};

        @Override
        public <T> Running run(String what, Work<T> todo, Consumer<T> onResult, Consumer<Throwable> failed) {
            onFailure = failed;
            return work;
        }

        @Override
        public void close() {}
    }

    private final Begun runner = new Begun();
    private final List<String> ways = new ArrayList<>();

    private FirstRunView laidOut(double width, double height) {
        FirstRunViewModel model =
                new FirstRunViewModel(runner, Path.of("home", "demo-subject"), Size.SMALL, folder -> {});
        FirstRunView view = new FirstRunView(
                model,
                new FirstRunView.Ways(
                        () -> ways.add("read"),
                        () -> ways.add("folder"),
                        () -> ways.add("limits"),
                        () -> ways.add("keys")),
                Bindings.usual());
        Scene scene = new Scene(new StackPane(view), width, height);
        Fonts.load();
        Theme.DARK.apply(scene);
        scene.getRoot().applyCss();
        scene.getRoot().layout();
        return view;
    }

    private static <T extends Node> List<T> all(FirstRunView view, Class<T> kind) {
        return view.lookupAll("*").stream()
                .filter(kind::isInstance)
                .map(kind::cast)
                .toList();
    }

    private static Button button(FirstRunView view, String text) {
        return all(view, Button.class).stream()
                .filter(button -> text.equals(button.getText()))
                .findFirst()
                .orElseThrow();
    }

    private static String words(FirstRunView view) {
        return all(view, Label.class).stream().map(Label::getText).collect(Collectors.joining("\n"));
    }

    @Test
    void saysWhatTheMainButtonDoes() throws Exception {
        WindowTest.fxRun(() -> {
            FirstRunView view = laidOut(1280, 700);
            assertTrue(button(view, "Open the demo").isDefaultButton());
            assertTrue(words(view).contains("about half a minute, 340\u2009MB, in " + Path.of("home", "demo-subject")));
        });
    }

    @Test
    void keepsBarAndStopWhileTheDemoIsMade() throws Exception {
        WindowTest.fxRun(() -> {
            FirstRunView view = laidOut(1280, 700);
            button(view, "Open the demo").fire();
            runner.work.report(0.25, "exam 2 of 5");
            Button stop = button(view, "Stop");
            runner.work.report(0.5, "exam 3 of 5");
            assertSame(stop, button(view, "Stop"));
            assertEquals(0.5, all(view, ProgressBar.class).get(0).getProgress());
            assertTrue(words(view).contains("exam 3 of 5"));
            assertTrue(button(view, "Open the demo").isDisabled());
            stop.fire();
            assertTrue(runner.work.isCancelled());
        });
    }

    @Test
    void saysWhatFailed() throws Exception {
        WindowTest.fxRun(() -> {
            FirstRunView view = laidOut(1280, 700);
            button(view, "Open the demo").fire();
            runner.onFailure.accept(new java.io.IOException("no room left on the disk"));
            assertTrue(words(view).contains("The demo could not be made."));
            assertTrue(words(view).contains("no room left on the disk"));
        });
    }

    @Test
    void itsListIsReachedAndUsedByKeys() throws Exception {
        WindowTest.fxRun(() -> {
            FirstRunView view = laidOut(1280, 700);
            List<PageLink> links = all(view, PageLink.class);
            assertEquals(4, links.size());
            for (PageLink link : links) {
                assertTrue(link.isFocusTraversable());
                Event.fireEvent(
                        link, new KeyEvent(KeyEvent.KEY_PRESSED, "", "", KeyCode.ENTER, false, false, false, false));
            }
            assertEquals(List.of("read", "folder", "limits", "keys"), ways);
            assertEquals("Open a subject's folder, key Ctrl O", links.get(1).getAccessibleText());
        });
    }

    @Test
    void nothingIsCutOffInASmallWindow() throws Exception {
        WindowTest.fxRun(() -> {
            FirstRunView view = laidOut(1220, 650);
            for (Label label : all(view, Label.class)) {
                double bottom = label.localToScene(label.getBoundsInLocal()).getMaxY();
                assertTrue(bottom <= 650, label.getText() + " ends at " + bottom);
                assertTrue(label.getHeight() >= label.prefHeight(label.getWidth()) - 1, label.getText());
            }
        });
    }
}
