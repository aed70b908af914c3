package org.holdfast.desktop.view;

import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.scene.control.Label;
import javafx.scene.image.ImageView;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.scene.layout.StackPane;
import javafx.util.Subscription;
import org.holdfast.app.GreyPicture;
import org.holdfast.desktop.viewmodel.IntakePictures.Picture;

/**
 * The small picture of a series, to know it again. It is scaled by the toolkit, as nothing is read off it; it was made
 * for a screen of double density.
 */
final class SeriesThumbnail extends StackPane {

    private static final double WIDTH = 104;
    private static final double HEIGHT = 132;
    private static final int OPAQUE = 0xFF000000;
    private static final int EACH_CHANNEL = 0x010101;

    private final ImageView view = new ImageView();
    private final Label words = new Label();
    private final Subscription listening;

    SeriesThumbnail(ReadOnlyObjectProperty<Picture> picture) {
        getStyleClass().addAll("image-well", "series-thumbnail");
        setMinSize(WIDTH, HEIGHT);
        setPrefSize(WIDTH, HEIGHT);
        setMaxSize(WIDTH, HEIGHT);
        view.setPreserveRatio(true);
        view.setFitWidth(WIDTH);
        view.setFitHeight(HEIGHT);
        words.setWrapText(true);
        words.getStyleClass().add("image-words");
        getChildren().addAll(view, words);
        listening = picture.subscribe(this::show);
    }

    void close() {
        listening.unsubscribe();
    }

    private void show(Picture picture) {
        if (picture instanceof Picture.Made made) {
            view.setImage(image(made.picture()));
            words.setText("");
        } else if (picture instanceof Picture.None none) {
            words.setText("no picture");
            words.setTooltip(new javafx.scene.control.Tooltip(none.why()));
        }
    }

    static WritableImage image(GreyPicture picture) {
        int[] argb = new int[picture.grey().length];
        for (int n = 0; n < argb.length; n++) {
            argb[n] = OPAQUE | EACH_CHANNEL * (picture.grey()[n] & 0xFF);
        }
        WritableImage image = new WritableImage(picture.width(), picture.height());
        image.getPixelWriter()
                .setPixels(
                        0,
                        0,
                        picture.width(),
                        picture.height(),
                        PixelFormat.getIntArgbInstance(),
                        argb,
                        0,
                        picture.width());
        return image;
    }
}
