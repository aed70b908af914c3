package org.holdfast.desktop.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import javafx.scene.Scene;
import javafx.scene.image.WritableImage;
import javafx.scene.layout.Background;
import javafx.scene.layout.Pane;
import javafx.scene.paint.Color;
import javafx.stage.Stage;
import org.holdfast.desktop.WindowTest;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** The window of the tests has one device pixel a logical pixel. */
@ExtendWith(WindowTest.class)
class ImageSurfaceTest {

    private Stage stage;
    private Pane root;
    private ImageSurface surface;

    @BeforeEach
    void open() throws Exception {
        WindowTest.fxRun(() -> {
            surface = new ImageSurface();
            surface.setManaged(false);
            root = new Pane(surface);
            // A theme that an earlier test has put on counts for the whole process and would paint the ground.
            root.setBackground(Background.EMPTY);
            stage = new Stage();
            stage.setScene(new Scene(root, 300, 200, Color.BLACK));
            stage.show();
        });
        WindowTest.waitForPulse();
    }

    @AfterEach
    void shut() throws Exception {
        WindowTest.fxRun(stage::close);
    }

    private void place(double x, double y, double width, double height) throws Exception {
        WindowTest.fxRun(() -> {
            surface.resizeRelocate(x, y, width, height);
            root.layout();
        });
        WindowTest.waitForPulse();
    }

    private static Picture noise(int width, int height, long seed) {
        Random random = new Random(seed);
        int[] argb = new int[width * height];
        for (int n = 0; n < argb.length; n++) {
            int grey = random.nextInt(256);
            argb[n] = 0xFF000000 | grey << 16 | grey << 8 | grey;
        }
        return new Picture(width, height, argb);
    }

    private void assertShown(Picture picture, int left, int top, int width, int height) throws Exception {
        WritableImage seen = WindowTest.fx(() -> stage.getScene().snapshot(null));
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int expected = picture.at(x, y);
                int found = seen.getPixelReader().getArgb(left + x, top + y);
                assertEquals(expected, found, x + ", " + y);
            }
        }
    }

    @Test
    void hasNoPixelsBeforeLayout() throws Exception {
        // By hand: nothing is laid out
        assertEquals(PixelSize.NONE, WindowTest.fx(() -> new ImageSurface().pixelSize()));
    }

    @Test
    void tellsItsSizeOnceALayout() throws Exception {
        List<PixelSize> told = new ArrayList<>();
        WindowTest.fxRun(() -> surface.pixelSizeProperty().subscribe(size -> told.add(size)));
        told.clear();
        place(10, 20, 120, 80);
        place(10, 20, 120, 80);

        assertEquals(List.of(new PixelSize(120, 80)), told);
    }

    @Test
    void neverAsksForMoreThanTheLargestSide() throws Exception {
        place(0, 0, 9000, 50);

        assertEquals(new PixelSize(ImageSurface.MOST_PIXELS, 50), WindowTest.fx(surface::pixelSize));
    }

    @Test
    void showsEachPixelAsItIs() throws Exception {
        place(10, 20, 120, 80);
        Picture first = noise(120, 80, 59);
        WindowTest.fxRun(() -> surface.show(first));
        WindowTest.waitForPulse();
        assertShown(first, 10, 20, 120, 80);

        Picture second = noise(120, 80, 61);
        WindowTest.fxRun(() -> surface.show(second));
        WindowTest.waitForPulse();
        assertShown(second, 10, 20, 120, 80);
    }

    @Test
    void blendsNothingAtAPlaceBetweenPixels() throws Exception {
        Picture picture = noise(120, 80, 67);
        place(10.4, 20.3, 120, 80);
        WindowTest.fxRun(() -> surface.show(picture));
        WindowTest.waitForPulse();

        // By hand: the nearest device pixel to 10.4, 20.3 is 10, 20; the border may cut into the outer pixels
        WritableImage seen = WindowTest.fx(() -> stage.getScene().snapshot(null));
        for (int y = 1; y < 79; y++) {
            for (int x = 1; x < 119; x++) {
                assertEquals(picture.at(x, y), seen.getPixelReader().getArgb(10 + x, 20 + y), x + ", " + y);
            }
        }
    }

    @Test
    void cutsAPictureOffAtItsBorder() throws Exception {
        place(10, 20, 60, 40);
        Picture larger = noise(120, 80, 71);
        WindowTest.fxRun(() -> surface.show(larger));
        WindowTest.waitForPulse();
        assertShown(larger, 10, 20, 60, 40);

        int beside = WindowTest.fx(() -> stage.getScene().snapshot(null))
                .getPixelReader()
                .getArgb(75, 30);
        assertEquals(0xFF000000, beside);
    }

    @Test
    void showsNothingOnceCleared() throws Exception {
        place(10, 20, 120, 80);
        WindowTest.fxRun(() -> {
            surface.show(noise(120, 80, 73));
            surface.clear();
        });
        WindowTest.waitForPulse();

        WritableImage seen = WindowTest.fx(() -> stage.getScene().snapshot(null));
        for (int x = 10; x < 130; x++) {
            assertEquals(0xFF000000, seen.getPixelReader().getArgb(x, 50), "x " + x);
        }
        Picture again = noise(120, 80, 79);
        WindowTest.fxRun(() -> surface.show(again));
        WindowTest.waitForPulse();
        assertShown(again, 10, 20, 120, 80);
    }

    @Test
    void leavesNoPictureScaled() throws Exception {
        place(10, 20, 120, 80);
        Picture smaller = noise(50, 30, 83);
        WindowTest.fxRun(() -> surface.show(smaller));
        WindowTest.waitForPulse();

        assertShown(smaller, 10, 20, 50, 30);
        assertTrue(WindowTest.fx(surface::outputScale) == 1.0);
    }
}
