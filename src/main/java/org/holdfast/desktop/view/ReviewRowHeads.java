package org.holdfast.desktop.view;

import java.util.List;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.FilmPlace;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.MapKind;
import org.holdfast.desktop.state.ReviewState;
import org.holdfast.desktop.state.WindowPreset;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CutWords;
import org.holdfast.desktop.viewmodel.FilmSight;
import org.holdfast.desktop.viewmodel.FilmWords;
import org.holdfast.desktop.viewmodel.MapLegendWords;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.desktop.viewmodel.SlabChoice;
import org.holdfast.desktop.viewmodel.WindowChoice;

/** The heads of the four rows: directions, window and slab, tools for marks, legend of the map, words on the course. */
final class ReviewRowHeads {

    private final ReviewViewModel review;
    private final WindowChoice windows;
    private final ComboBox<WindowPreset> window = new ComboBox<>();
    private final ComboBox<SlabChoice> slab = new ComboBox<>();
    private final FilmWindowBox filmWindow = new FilmWindowBox();
    private final VBox choices;
    private final Label settings = small("");
    private final MarkTools tools;
    private final MapLegend legend = new MapLegend();
    private final MapChoice maps;
    private final Label apparent = small("");
    private final Label courseWords = small("Whiskers: bounds from what could not be assessed.");
    private final RowHead along;
    private final RowHead across;
    private final RowHead faceOn;
    private final RowHead course;
    private boolean settingFromState;
    private HuWindow shownWindow;

    ReviewRowHeads(ReviewViewModel review) {
        this.review = review;
        this.windows = new WindowChoice(review);
        this.tools = new MarkTools(review.bindings());
        window.getItems().setAll(WindowPreset.values());
        window.setPromptText("own window");
        window.setConverter(new PresetWords());
        window.setAccessibleText("window");
        window.setMaxWidth(Double.MAX_VALUE);
        slab.getItems().setAll(SlabChoice.all());
        slab.setMaxWidth(Double.MAX_VALUE);
        slab.setAccessibleText("slab");
        choices = new VBox(4, window, slab);
        along = new RowHead(
                Optional.of(new RowPictogram(RowPictogram.Row.ALONG)), CutRow.ALONG.title(), settings, choices);
        across = new RowHead(Optional.of(new RowPictogram(RowPictogram.Row.ACROSS)), CutRow.ACROSS.title(), tools);
        maps = new MapChoice(review);
        faceOn =
                new RowHead(Optional.of(new RowPictogram(RowPictogram.Row.FACE_ON)), "Face-on", maps, legend, apparent);
        course = new RowHead(Optional.empty(), "Course", courseWords);
        course.setDirection("true months since surgery");
        window.setOnAction(event -> preset());
        slab.setOnAction(event -> {
            if (!settingFromState && slab.getValue() != null) {
                review.slab(slab.getValue().slab());
            }
        });
    }

    List<Node> all() {
        return List.of(along, across, faceOn, course);
    }

    Node windowChoice() {
        return window;
    }

    MarkTools tools() {
        return tools;
    }

    void show(ReviewState state, boolean compact) {
        along.setDirection(CutWords.direction(review.part(), CutRow.ALONG));
        across.setDirection(CutWords.direction(review.part(), CutRow.ACROSS));
        showMap(compact);
        HuWindow shown = state.lookOf(state.exam()).window();
        settings.setText("C " + Words.number(shown.centreHu(), 0) + "  W " + Words.number(shown.widthHu(), 0));
        showFilm(state);
        settingFromState = true;
        if (!shown.equals(shownWindow)) {
            window.setValue(windows.presetOf(shown).orElse(null));
            shownWindow = shown;
        }
        slab.setValue(SlabChoice.of(state.slab()));
        settingFromState = false;
        courseWords.setVisible(!compact);
        courseWords.setManaged(!compact);
    }

    private void showMap(boolean compact) {
        Optional<MapKind> map = review.map();
        faceOn.setTitle(map.map(MapWords::title).orElse("Map"));
        faceOn.setDirection(map.map(MapWords::direction).orElse("no map: this part is judged by where it went"));
        maps.show(MapKind.of(review.part().kind()), map);
        legend.show(map.map(kind -> MapLegendWords.of(kind, review.subject().settings()))
                .orElse(List.of()));
        String caution = map.map(kind -> MapWords.caution(kind, compact)).orElse("");
        apparent.setText(caution);
        apparent.setVisible(!caution.isEmpty());
        apparent.setManaged(!caution.isEmpty());
    }

    /** A radiograph has windows of its own and no slab. */
    private void showFilm(ReviewState state) {
        boolean isFilm = review.isFilm(state.exam());
        if (isFilm) {
            FilmSight first = review.film(new FilmPlace(state.exam(), 0));
            filmWindow.show(first);
            settings.setText(first.window()
                    .map(w -> "radiograph: " + FilmWords.numbers(w))
                    .orElse("radiograph"));
        }
        List<Node> wanted = isFilm ? List.of(filmWindow) : List.of(window, slab);
        if (!choices.getChildren().equals(wanted)) {
            choices.getChildren().setAll(wanted);
        }
    }

    void layout(ReviewMetrics m) {
        double width = m.gutterWidth() - 1;
        along.resizeRelocate(0, m.cutTop(0), width, m.cutHeight());
        across.resizeRelocate(0, m.cutTop(1), width, m.cutHeight());
        faceOn.resizeRelocate(0, m.mapTop(), width, m.mapHeight() + m.numberHeight());
        course.resizeRelocate(0, m.courseTop(), width, m.courseHeight());
    }

    private void preset() {
        if (settingFromState || window.getValue() == null) {
            return;
        }
        Optional<HuWindow> chosen = windows.window(window.getValue());
        chosen.ifPresent(hu -> review.window(review.stateProperty().get().exam(), hu, new Object()));
    }

    private static Label small(String text) {
        Label label = new Label(text);
        label.getStyleClass().addAll("small-text", "faint");
        label.setWrapText(true);
        return label;
    }
}
