package org.holdfast.desktop.view;

import javafx.scene.control.Button;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;

/** Puts the details of a failure onto the clipboard. */
final class CopyButton extends Button {

    CopyButton(String details) {
        super("Copy details");
        setOnAction(event -> {
            ClipboardContent content = new ClipboardContent();
            content.putString(details);
            Clipboard.getSystemClipboard().setContent(content);
        });
    }
}
