package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import javafx.event.Event;
import javafx.event.EventType;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.stage.Stage;
import org.holdfast.app.DemoSubject.Size;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.viewmodel.BackgroundRunner;
import org.holdfast.desktop.viewmodel.FirstRunViewModel;
import org.holdfast.desktop.viewmodel.RunningWork;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** The first page in a window that has another button before it: where the focus is, and what Enter and Esc do. */
@ExtendWith(WindowTest.class)
final class FirstRunKeysTest {

    private final RunningWork work = new RunningWork(Runnable::run);
    private final Button before = new Button("a button before the page");
    private int begun;
    private Consumer<Throwable> onFailure;
    private Stage stage;
    private StackPane ground;
    private FirstRunView view;

    private final class Held implements BackgroundRunner {
        @Override
        public <T> Running run(String what, Work<T> todo, Consumer<T> result, Consumer<Throwable> failed) {
            begun++;
            onFailure = failed;
            return work;
        }

        @Override
        public void close() {}
    }

    @BeforeEach
    void show() throws Exception {
        WindowTest.fxRun(() -> {
            FirstRunViewModel model =
                    new FirstRunViewModel(new Held(), Path.of("home", "demo-subject"), Size.SMALL, folder -> {});
            view = new FirstRunView(
                    model, new FirstRunView.Ways(() -> {}, () -> {}, () -> {}, () -> {}), Bindings.usual());
            ground = new StackPane(view);
            stage = new Stage();
            stage.setScene(new Scene(new VBox(before, ground), 1220, 700));
            stage.show();
        });
        WindowTest.waitForPulse();
    }

    @AfterEach
    void hide() throws Exception {
        WindowTest.fxRun(stage::close);
    }

    private Button button(String text) {
        return view.lookupAll(".button").stream()
                .map(Button.class::cast)
                .filter(button -> text.equals(button.getText()))
                .findFirst()
                .orElseThrow();
    }

    private void press(KeyCode code) {
        Node owner = stage.getScene().getFocusOwner();
        for (EventType<KeyEvent> type : List.of(KeyEvent.KEY_PRESSED, KeyEvent.KEY_RELEASED)) {
            Event.fireEvent(
                    owner == null ? stage.getScene().getRoot() : owner,
                    new KeyEvent(type, "", "", code, false, false, false, false));
        }
    }

    @Test
    void enterOpensTheDemoAtOnce() throws Exception {
        assertTrue(WindowTest.fx(() -> button("Open the demo").isFocused()));
        WindowTest.fxRun(() -> press(KeyCode.ENTER));
        assertEquals(1, begun);
    }

    @Test
    void focusGoesToStopAndBack() throws Exception {
        WindowTest.fxRun(() -> {
            button("Open the demo").fire();
            assertTrue(button("Stop").isFocused());
            work.report(0.5, "exam 3 of 5");
            assertTrue(button("Stop").isFocused());
            onFailure.accept(new CancellationException("cancelled"));
            assertTrue(button("Open the demo").isFocused());
        });
    }

    @Test
    void focusThatIsElsewhereStaysThere() throws Exception {
        WindowTest.fxRun(() -> {
            before.requestFocus();
            button("Open the demo").fire();
            assertTrue(before.isFocused());
        });
    }

    @Test
    void escapeStops() throws Exception {
        WindowTest.fxRun(() -> button("Open the demo").fire());
        WindowTest.waitForPulse();
        WindowTest.fxRun(() -> press(KeyCode.ESCAPE));
        assertTrue(work.isCancelled());
        WindowTest.fxRun(() -> {
            assertTrue(view.lookupAll(".label").stream()
                    .anyMatch(label -> ((Label) label).getText().startsWith("stopping")));
            onFailure.accept(new CancellationException("cancelled"));
            assertTrue(button("Open the demo").isFocused());
        });
    }

    @Test
    void enterDoesNothingWhileAnotherPageLiesOver() throws Exception {
        WindowTest.fxRun(() -> {
            view.setVisible(false);
            ground.getChildren().add(new Label("another page"));
            ground.requestFocus();
        });
        WindowTest.waitForPulse();
        WindowTest.fxRun(() -> press(KeyCode.ENTER));
        assertEquals(0, begun);
        assertFalse(work.isCancelled());
    }
}
