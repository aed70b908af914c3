package org.holdfast.desktop.view;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import org.holdfast.app.Caution;

/** What stands round every area: rail with the steps of the work, header, footer with the caution, and pages over it. */
public final class Frame extends BorderPane {

    private final VBox rail = new VBox();
    private final HBox header = new HBox();
    private final Label title = new Label();
    private final Label subtitle = new Label();
    private final HBox acts = new HBox();
    private final Label caution = new Label(Caution.TEXT);
    private final StackPane content = new StackPane();
    private final VBox faults = new VBox();
    private final Map<Step, RailStep> steps = new EnumMap<>(Step.class);
    private final Label drop = new Label("Drop to read: folders, files, zips");

    /** The steps of the work that there are, in their order. */
    public enum Step {
        INTAKE("Intake"),
        REVIEW("Review");

        private final String words;

        Step(String words) {
            this.words = words;
        }
    }

    public Frame() {
        getStyleClass().addAll("frame", "ground-window");
        Label name = new Label("Holdfast");
        name.getStyleClass().add("program-name");
        Region spring = new Region();
        VBox.setVgrow(spring, Priority.ALWAYS);
        Label keys = new Label("all keys");
        keys.getStyleClass().addAll("small-text", "faint", "rail-help-words");
        HBox help = new HBox(4, new KeyCap("F1"), keys);
        help.setAlignment(Pos.CENTER_LEFT);
        help.getStyleClass().add("rail-help");
        rail.getStyleClass().addAll("rail", "ground-shade");
        VBox line = new VBox();
        line.getStyleClass().add("rail-line");
        for (Step step : Step.values()) {
            steps.put(step, new RailStep(step.words));
            line.getChildren().add(steps.get(step));
        }
        rail.getChildren().addAll(name, line, spring, help);
        title.getStyleClass().add("page-title");
        subtitle.getStyleClass().addAll("body-text", "soft");
        subtitle.setMinWidth(0);
        Region gap = new Region();
        HBox.setHgrow(gap, Priority.ALWAYS);
        header.getStyleClass().addAll("header", "ground-window");
        header.setAlignment(Pos.CENTER_LEFT);
        acts.setAlignment(Pos.CENTER_RIGHT);
        acts.getStyleClass().add("header-acts");
        header.getChildren().addAll(title, subtitle, gap, acts);
        title.setMinWidth(Region.USE_PREF_SIZE);
        acts.setMinWidth(Region.USE_PREF_SIZE);
        caution.getStyleClass().addAll("small-text", "faint");
        caution.setWrapText(true);
        VBox foot = new VBox(caution);
        foot.getStyleClass().add("footer");
        foot.setAlignment(Pos.CENTER_LEFT);
        BorderPane main = new BorderPane(content, new VBox(header, faults), null, foot, null);
        drop.getStyleClass().add("drop-outline");
        drop.setMaxSize(Double.MAX_VALUE, Double.MAX_VALUE);
        drop.setMouseTransparent(true);
        drop.setVisible(false);
        setLeft(rail);
        setCenter(new StackPane(main, drop));
        widthProperty()
                .subscribe(
                        width -> StyleClass.toggle(this, "compact", width.doubleValue() < ReviewMetrics.COMPACT_BELOW));
    }

    /** Whether the compact set applies at this width. */
    public boolean isCompact() {
        return getWidth() < ReviewMetrics.COMPACT_BELOW;
    }

    /** Shows an area. */
    public void show(String pageTitle, String more, Node area, List<Node> pageActs) {
        title.setText(pageTitle);
        subtitle.setText(more);
        acts.getChildren().setAll(pageActs);
        content.getChildren().setAll(area);
    }

    /** Where a step of the rail leads. */
    public void lead(Step step, Runnable go) {
        steps.get(step).setOnAction(event -> go.run());
    }

    /**
     * How it stands with a step of the work.
     *
     * @param open what there is to do; empty for nothing
     * @param isHere whether its area is shown
     * @param canGo whether it can be gone to
     */
    public void step(Step step, String open, boolean isHere, boolean canGo) {
        steps.get(step).show(open, isHere, canGo);
    }

    /** Shows that what is dragged over the window could be dropped, or no more. */
    public void offerDrop(boolean isOffered) {
        drop.setVisible(isOffered);
    }

    /** Says more beside the title of the area. */
    public void say(String more) {
        subtitle.setText(more);
    }

    /** Says under the header that something failed; it stays until it is put away. */
    public void fault(String what, String details) {
        Button away = new Button("Put away");
        Node notice = Notice.error(what, details, "", Optional.of(away));
        away.setOnAction(event -> faults.getChildren().remove(notice));
        faults.getChildren().setAll(notice);
    }

    /** Lays a page over the area, in place of one that lay there. */
    public void cover(Node page) {
        uncover();
        if (!content.getChildren().isEmpty()) {
            content.getChildren().get(0).setVisible(false);
        }
        content.getChildren().add(page);
    }

    /** Whether a page lies over the area. */
    public boolean isCovered() {
        return content.getChildren().size() > 1;
    }

    /** Takes the page away; tells whether there was one. */
    public boolean uncover() {
        if (content.getChildren().size() < 2) {
            return false;
        }
        content.getChildren().remove(1);
        content.getChildren().get(0).setVisible(true);
        return true;
    }
}
