package org.holdfast.desktop.view;

import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.VBox;
import org.holdfast.app.IntakeContent;
import org.holdfast.desktop.state.ShownPath;

/** The files that are not used, by the reason. */
public final class LeftAsidePage {

    /** So many files are named for a reason; the rest is counted. */
    private static final int FILES_NAMED = 60;

    private LeftAsidePage() {}

    /**
     * The page.
     *
     * @param content what was read
     * @param close leaves the page
     */
    public static Node of(IntakeContent content, Runnable close) {
        VBox list = new VBox(18);
        for (IntakeContent.LeftAside left : content.leftAside()) {
            VBox files = new VBox(2);
            files.getChildren().add(label(left.reason(), "section-title"));
            List<String> named =
                    left.files().subList(0, Math.min(FILES_NAMED, left.files().size()));
            named.forEach(file -> files.getChildren().add(label(ShownPath.of(file), "cell-text", "soft")));
            int rest = left.files().size() - named.size();
            if (rest > 0) {
                files.getChildren().add(label("and " + rest + " more", "cell-text", "faint"));
            }
            list.getChildren().add(files);
        }
        return new CoverPage("Files left aside", list, close);
    }

    private static Label label(String text, String... classes) {
        Label label = new Label(text);
        label.setWrapText(true);
        label.getStyleClass().addAll(classes);
        return label;
    }
}
