package org.holdfast.desktop.view;

import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import javafx.scene.Parent;
import javafx.scene.Scene;
import javafx.scene.SnapshotParameters;
import javafx.scene.image.PixelReader;
import javafx.scene.image.WritableImage;
import javafx.scene.transform.Scale;
import javax.imageio.ImageIO;

/** Pictures of nodes for looking at, written where the property {@code holdfast.pictures} says; none without it. */
final class Snapshot {

    private Snapshot() {}

    static boolean wanted() {
        return System.getProperty("holdfast.pictures") != null;
    }

    static void write(String name, Parent node, double width, double height, double scale, Theme theme, boolean compact)
            throws IOException {
        Fonts.load();
        javafx.scene.layout.StackPane root = new javafx.scene.layout.StackPane(node);
        Scene scene = new Scene(root, width, height);
        theme.apply(scene);
        StyleClass.toggle(root, "compact", compact);
        root.applyCss();
        root.resize(width, height);
        root.layout();
        SnapshotParameters how = new SnapshotParameters();
        how.setTransform(new Scale(scale, scale));
        WritableImage image = root.snapshot(how, null);
        int wide = (int) image.getWidth();
        int high = (int) image.getHeight();
        BufferedImage copy = new BufferedImage(wide, high, BufferedImage.TYPE_INT_ARGB);
        PixelReader reader = image.getPixelReader();
        for (int y = 0; y < high; y++) {
            for (int x = 0; x < wide; x++) {
                copy.setRGB(x, y, reader.getArgb(x, y));
            }
        }
        ImageIO.write(copy, "png", new File(System.getProperty("holdfast.pictures"), name + ".png"));
    }
}
