package org.holdfast.desktop.render;

import java.nio.IntBuffer;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.value.ObservableValue;
import javafx.geometry.Point2D;
import javafx.scene.Scene;
import javafx.scene.image.ImageView;
import javafx.scene.image.PixelBuffer;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.scene.layout.Region;
import javafx.scene.shape.Rectangle;
import javafx.stage.Window;

/**
 * Shows a picture one picture pixel to one device pixel, on the grid of the device's pixels; never scales. Its size in
 * device pixels follows the layout and the scale of the screen that the window is on: who draws for it listens to
 * {@link #pixelSizeProperty()} and draws anew. Until then the old picture stays as it is, cut off at the border.
 */
public final class ImageSurface extends Region {

    /** No side has more pixels: larger textures fail without a word on some graphics hardware. */
    public static final int MOST_PIXELS = 4096;

    private final ReadOnlyObjectWrapper<PixelSize> pixelSize = new ReadOnlyObjectWrapper<>(PixelSize.NONE);
    private final ImageView view = new ImageView();
    private final ObservableValue<Number> scaleX;
    private final ObservableValue<Number> scaleY;
    private PixelBuffer<IntBuffer> pixels;
    private int[] buffer = new int[0];

    public ImageSurface() {
        ObservableValue<Window> window = sceneProperty().flatMap(Scene::windowProperty);
        scaleX = window.flatMap(Window::outputScaleXProperty).orElse(1.0);
        scaleY = window.flatMap(Window::outputScaleYProperty).orElse(1.0);
        scaleX.subscribe(this::requestLayout);
        scaleY.subscribe(this::requestLayout);
        localToSceneTransformProperty().subscribe(this::snapToDevicePixels);
        Rectangle border = new Rectangle();
        border.widthProperty().bind(widthProperty());
        border.heightProperty().bind(heightProperty());
        setClip(border);
        view.setManaged(false);
        view.setPreserveRatio(false);
        view.setSmooth(false);
        getChildren().add(view);
    }

    /** Size in device pixels; (0, 0) before the first layout; no side above {@link #MOST_PIXELS}. */
    public ReadOnlyObjectProperty<PixelSize> pixelSizeProperty() {
        return pixelSize.getReadOnlyProperty();
    }

    /** Size in device pixels. */
    public PixelSize pixelSize() {
        return pixelSize.get();
    }

    /** Device pixels to one logical pixel. */
    public double outputScale() {
        return scaleX.getValue().doubleValue();
    }

    /** Shows a picture from the upper left corner on; the picture is copied. */
    public void show(Picture picture) {
        if (pixels == null || pixels.getWidth() != picture.width() || pixels.getHeight() != picture.height()) {
            buffer = new int[picture.argb().length];
            pixels = new PixelBuffer<>(
                    picture.width(), picture.height(), IntBuffer.wrap(buffer), PixelFormat.getIntArgbPreInstance());
            System.arraycopy(picture.argb(), 0, buffer, 0, buffer.length);
            view.setImage(new WritableImage(pixels));
            fit();
        } else {
            System.arraycopy(picture.argb(), 0, buffer, 0, buffer.length);
            pixels.updateBuffer(all -> null);
        }
    }

    /** Shows nothing. */
    public void clear() {
        view.setImage(null);
        pixels = null;
        buffer = new int[0];
    }

    @Override
    protected void layoutChildren() {
        pixelSize.set(new PixelSize(devicePixels(getWidth(), scaleX), devicePixels(getHeight(), scaleY)));
        fit();
        snapToDevicePixels();
    }

    private static int devicePixels(double logical, ObservableValue<Number> scale) {
        return (int) Math.min(MOST_PIXELS, Math.round(logical * scale.getValue().doubleValue()));
    }

    /** The toolkit counts a picture's pixels as logical ones; divided by the scale they are the device's. */
    private void fit() {
        if (pixels != null) {
            view.setFitWidth(pixels.getWidth() / scaleX.getValue().doubleValue());
            view.setFitHeight(pixels.getHeight() / scaleY.getValue().doubleValue());
        }
    }

    /** A place between device pixels would blend each pixel with its neighbour. */
    private void snapToDevicePixels() {
        Point2D corner = localToScene(0, 0);
        view.setX(offset(corner.getX(), scaleX));
        view.setY(offset(corner.getY(), scaleY));
    }

    private static double offset(double at, ObservableValue<Number> scale) {
        double factor = scale.getValue().doubleValue();
        return Math.rint(at * factor) / factor - at;
    }
}
