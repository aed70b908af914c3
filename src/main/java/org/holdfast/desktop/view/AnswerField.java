package org.holdfast.desktop.view;

import java.util.Optional;
import java.util.function.Consumer;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.VBox;

/**
 * A field for one answer, with what is wrong with it beneath. What a person types counts at once; what comes from
 * elsewhere, as after an answer was taken back, is shown unless it says the same.
 */
final class AnswerField extends VBox {

    private final TextField field = new TextField();
    private final Label fault = new Label();
    private final Consumer<String> onText;
    private boolean isShowing;

    AnswerField(String name, String prompt, Consumer<String> onText) {
        this.onText = onText;
        field.setPromptText(prompt);
        field.setAccessibleText(name);
        field.getStyleClass().add("answer");
        fault.setWrapText(true);
        fault.setMinHeight(USE_PREF_SIZE);
        fault.getStyleClass().addAll("small-text", "ink-change");
        getStyleClass().add("answer-box");
        getChildren().add(field);
        // Only what is typed from now on: the empty text of a new field is no answer.
        field.textProperty().subscribe((before, now) -> typed(now));
    }

    TextField field() {
        return field;
    }

    /** Shows an answer, unless the text there means the same. */
    void show(String answer, boolean isSame) {
        if (!isSame && !field.getText().equals(answer)) {
            isShowing = true;
            field.setText(answer);
            isShowing = false;
        }
    }

    /** Marks the field as one that must be answered, or not. */
    void ask(boolean isOpen) {
        StyleClass.toggle(field, "is-asked", isOpen);
    }

    /** Says what is wrong with the text. */
    void fault(Optional<String> words) {
        fault.setText(words.orElse(""));
        if (words.isPresent() && !getChildren().contains(fault)) {
            getChildren().add(fault);
        } else if (words.isEmpty()) {
            getChildren().remove(fault);
        }
    }

    private void typed(String text) {
        if (!isShowing) {
            onText.accept(text);
        }
    }
}
