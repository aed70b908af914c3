package org.holdfast.desktop.view;

import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import org.holdfast.desktop.render.FaceClass;
import org.holdfast.desktop.render.FaceMapPainter;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.state.Words;
import org.holdfast.figure.Face;

/** The classes of a face-on map with their marks, in two columns. */
final class MapLegend extends GridPane {

    private static final double MARK = 9;

    MapLegend() {
        getStyleClass().add("map-legend");
        int n = 0;
        for (FaceClass each : FaceClass.values()) {
            add(line(each), n % 2, n / 2);
            n++;
        }
    }

    private static HBox line(FaceClass each) {
        ImageSurface mark = new ImageSurface();
        mark.setMinSize(MARK, MARK);
        mark.setPrefSize(MARK, MARK);
        mark.setMaxSize(MARK, MARK);
        mark.pixelSizeProperty().subscribe(size -> {
            if (!size.isEmpty()) {
                mark.show(FaceMapPainter.swatch(each, size.width()));
            }
        });
        Label words = new Label(words(each));
        words.getStyleClass().addAll("small-text", "soft");
        HBox line = new HBox(5, mark, words);
        line.setAlignment(Pos.CENTER_LEFT);
        return line;
    }

    private static String words(FaceClass each) {
        return switch (each) {
            case BRIDGED -> "bridged";
            case CONTACT -> "contact";
            case NARROW_GAP -> "gap < " + mm(Face.GapLimits.USUAL.narrowMm());
            case GAP -> "to " + mm(Face.GapLimits.USUAL.wideMm());
            case WIDE_GAP_OR_NO_BONE -> "wider, none";
            case CANNOT_TELL -> "cannot tell";
        };
    }

    private static String mm(double value) {
        return Words.quantity(value, 1, "mm");
    }
}
