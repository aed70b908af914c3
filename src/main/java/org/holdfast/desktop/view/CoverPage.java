package org.holdfast.desktop.view;

import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;

/** A page that lies over an area until it is closed. */
final class CoverPage extends BorderPane {

    CoverPage(String title, Node content, Runnable close) {
        getStyleClass().addAll("cover-page", "ground-window");
        Label name = new Label(title);
        name.getStyleClass().add("page-title");
        Region gap = new Region();
        HBox.setHgrow(gap, Priority.ALWAYS);
        Button back = new Button("Back");
        back.setGraphic(new KeyCap("Esc"));
        back.setContentDisplay(javafx.scene.control.ContentDisplay.RIGHT);
        back.setOnAction(event -> close.run());
        HBox head = new HBox(name, gap, back);
        head.setAlignment(Pos.CENTER_LEFT);
        head.getStyleClass().add("cover-head");
        setTop(head);
        ScrollPane scroll = new ScrollPane(content);
        scroll.setFitToWidth(true);
        scroll.getStyleClass().add("side-scroll");
        setCenter(scroll);
    }
}
