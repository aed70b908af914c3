package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import javafx.css.PseudoClass;
import javafx.geometry.Insets;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.ListView;
import javafx.scene.control.RadioButton;
import javafx.scene.control.Slider;
import javafx.scene.control.TextArea;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.BorderStroke;
import javafx.scene.layout.BorderWidths;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.scene.paint.Color;
import org.holdfast.desktop.WindowTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** That whoever works by keyboard sees where the focus is, whatever kind of control has it. */
@ExtendWith(WindowTest.class)
final class FocusRingTest {

    private static final PseudoClass FOCUS_VISIBLE = PseudoClass.getPseudoClass("focus-visible");

    // Source: the design: 2 px, 2 px off, in the colour of what is chosen; 2 px off is 4 px to its outer edge
    private static final BorderWidths WIDTH = new BorderWidths(2);

    private static final Insets OUTWARDS = new Insets(-4);

    @Test
    void everyControlHasTheRingWhileItHasTheFocus() throws Exception {
        for (Theme theme : Theme.values()) {
            Color pick = Color.web(
                    String.format(Locale.ROOT, "#%06X", ThemeTokens.of(theme).colour("pick")));
            WindowTest.fxRun(() -> {
                List<Region> controls = controls();
                VBox root = new VBox(controls.toArray(Region[]::new));
                theme.apply(new Scene(root));
                root.applyCss();
                controls.forEach(control -> assertFalse(hasRing(control, pick), () -> theme + " " + control));
                controls.forEach(control -> control.pseudoClassStateChanged(FOCUS_VISIBLE, true));
                root.applyCss();
                controls.forEach(control -> assertTrue(hasRing(control, pick), () -> theme + " " + control));
            });
        }
    }

    @Test
    void theRingTakesNoRoom() throws Exception {
        WindowTest.fxRun(() -> {
            List<Region> controls = controls();
            VBox root = new VBox(controls.toArray(Region[]::new));
            Theme.DARK.apply(new Scene(root));
            root.applyCss();
            List<Double> before =
                    controls.stream().map(control -> control.prefHeight(-1)).toList();
            controls.forEach(control -> control.pseudoClassStateChanged(FOCUS_VISIBLE, true));
            root.applyCss();
            assertEquals(
                    before,
                    controls.stream().map(control -> control.prefHeight(-1)).toList());
        });
    }

    private static List<Region> controls() {
        Button main = new Button("Open");
        main.getStyleClass().add("main");
        Button link = new Button("Open");
        link.getStyleClass().add("link");
        ToggleButton chosen = new ToggleButton("All linked");
        chosen.setSelected(true);
        return List.of(
                new Button("Open"),
                main,
                link,
                chosen,
                new ComboBox<String>(),
                new CheckBox("Linked"),
                new RadioButton("Linked"),
                new Slider(),
                new Hyperlink("Open"),
                new TextField(),
                new TextArea(),
                new ListView<String>());
    }

    private static boolean hasRing(Region control, Color colour) {
        if (control.getBorder() == null) {
            return false;
        }
        for (BorderStroke stroke : control.getBorder().getStrokes()) {
            boolean isRing =
                    stroke.getWidths().equals(WIDTH) && stroke.getInsets().equals(OUTWARDS);
            if (isRing && colour.equals(stroke.getTopStroke())) {
                return true;
            }
        }
        return false;
    }
}
