package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import org.holdfast.desktop.render.FaceMapPainter;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.render.MapClass;
import org.holdfast.desktop.viewmodel.MapLegendWords.Entry;

/** The classes of a map with their marks, in two columns. */
final class MapLegend extends GridPane {

    private static final double MARK = 9;

    private List<Entry> shown = List.of();

    MapLegend() {
        getStyleClass().add("map-legend");
    }

    void show(List<Entry> entries) {
        if (entries.equals(shown)) {
            return;
        }
        shown = List.copyOf(entries);
        getChildren().clear();
        int n = 0;
        List<HBox> lines = new ArrayList<>();
        for (Entry each : entries) {
            lines.add(line(each));
        }
        for (HBox line : lines) {
            add(line, n % 2, n / 2);
            n++;
        }
        setVisible(!entries.isEmpty());
        setManaged(!entries.isEmpty());
    }

    private static HBox line(Entry entry) {
        Label words = new Label(entry.words());
        words.getStyleClass().addAll("small-text", "soft");
        Optional<MapClass> mark = entry.mark();
        HBox line = mark.isPresent() ? new HBox(5, swatch(mark.get()), words) : new HBox(5, words);
        line.setAlignment(Pos.CENTER_LEFT);
        return line;
    }

    private static ImageSurface swatch(MapClass each) {
        ImageSurface mark = new ImageSurface();
        mark.setMinSize(MARK, MARK);
        mark.setPrefSize(MARK, MARK);
        mark.setMaxSize(MARK, MARK);
        mark.pixelSizeProperty().subscribe(size -> {
            if (!size.isEmpty()) {
                mark.show(FaceMapPainter.swatch(each, size.width()));
            }
        });
        return mark;
    }
}
