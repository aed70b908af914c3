package org.holdfast.desktop.view;

import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.VBox;
import org.holdfast.app.Caution;

/** What is measured, and what CT cannot show. */
public final class LimitsPage {

    private static final List<String> MEASURES = List.of(
            "Contact fraction: the share of the assessable face of an implant that has bone next to it without a visible gap.",
            "Bounds: the same with everything that could not be assessed counted as none, and as contact.",
            "Smallest visible gap: the narrowest gap that this scan, with these settings, would have shown. Contact reads"
                    + " “bone, or a gap narrower than this”.",
            "Bridged fraction: contact that hangs together with the host bone in depth.",
            "Sensitivity: the fraction with the bone threshold 50 and 100 HU lower and higher, and its scatter under"
                    + " half-voxel shifts of the face.",
            "On any cut: length, angle, and HU in a region, sampled at the scan's own spacing whatever the zoom.");

    private static final List<String> CANNOT = List.of(
            "Clinical CT does not resolve true contact between bone and implant: what is measured is apparent contact.",
            "No HU threshold, and no change of HU, is known that means “ingrown”.",
            "Beside metal, artefact can hide or imitate bone and gaps. Where it shows, nothing is concluded, and the share of"
                    + " the face that is lost is stated.",
            "Exams with another tube voltage, kernel or energy are not joined in one line.",
            "An exam lies as the reference exam does, unless poses are given; each result says which.",
            "Lucent zones, breaks, migration and radiographs are not measured by this version; “not measured” says nothing"
                    + " about them.");

    private LimitsPage() {}

    /** The page. */
    public static Node of(Runnable close) {
        VBox page = new VBox(10);
        page.getStyleClass().add("limits");
        section(page, "What it measures", MEASURES);
        section(page, "What CT cannot show, and this version does not", CANNOT);
        section(page, "Caution", List.of(Caution.TEXT));
        return new CoverPage("What it measures, and what CT cannot show", page, close);
    }

    private static void section(VBox page, String title, List<String> sentences) {
        Label name = new Label(title);
        name.getStyleClass().add("section-title");
        page.getChildren().add(name);
        for (String sentence : sentences) {
            Label words = new Label(sentence);
            words.setWrapText(true);
            words.setMinHeight(Label.USE_PREF_SIZE);
            words.setMaxWidth(820);
            words.getStyleClass().addAll("body-text", "soft");
            page.getChildren().add(words);
        }
    }
}
