package org.holdfast.desktop.view;

import java.util.OptionalDouble;
import javafx.scene.AccessibleRole;
import javafx.scene.layout.StackPane;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.render.FilmRequest;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.render.PixelSize;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.viewmodel.FilmGeometry;
import org.holdfast.desktop.viewmodel.FilmSight;
import org.holdfast.desktop.viewmodel.FilmWords;
import org.holdfast.volume.FilmFacts;
import org.holdfast.volume.Radiograph;
import org.holdfast.volume.VoiTransform;

/** One radiograph: picture and furniture. The wheel with Ctrl magnifies, dragging moves it or changes its window. */
final class FilmPane extends StackPane implements PictureMouse.Acts {

    private final FilmSight sight;
    private final CutQueue queue;
    private final int cell;
    private final String label;
    private final boolean isLarge;
    private final ImageSurface surface = new ImageSurface();
    private final CutFurniture furniture = new CutFurniture();
    private final PictureMouse mouse;
    private Object gesture = new Object();

    /**
     * @param sight what is looked at
     * @param bindings the person's mouse
     * @param queue draws
     * @param cell number of this place in the queue
     * @param label exam, or code
     * @param isLarge whether there is room for what stands elsewhere beside a small picture
     */
    FilmPane(FilmSight sight, Bindings bindings, CutQueue queue, int cell, String label, boolean isLarge) {
        this.sight = sight;
        this.queue = queue;
        this.cell = cell;
        this.label = label;
        this.isLarge = isLarge;
        this.mouse = new PictureMouse(bindings, surface, this);
        getStyleClass().add("image-well");
        getChildren().addAll(surface, furniture);
        setMinSize(0, 0);
        setAccessibleRole(AccessibleRole.IMAGE_VIEW);
        surface.pixelSizeProperty().subscribe(size -> draw());
        setOnMousePressed(mouse::pressed);
        setOnMouseDragged(mouse::dragged);
        setOnMouseReleased(mouse::released);
        setOnScroll(mouse::scrolled);
    }

    /** Asks for the picture as the look is now. */
    void draw() {
        PixelSize size = surface.pixelSize();
        if (size.isEmpty()) {
            return;
        }
        if (sight.film().isEmpty()) {
            close();
            return;
        }
        Radiograph film = sight.film().get();
        FilmGeometry geometry = geometry(film);
        // A film of padding alone has no window; any draws it empty.
        VoiTransform window = sight.window().orElseGet(() -> VoiTransform.Window.between("", 0, 1));
        queue.request(cell, new FilmRequest(film, geometry.frame(), window), surface::show);
        furnish(film.facts(), geometry, window);
    }

    private void furnish(FilmFacts facts, FilmGeometry geometry, VoiTransform window) {
        OptionalDouble none = OptionalDouble.empty();
        OptionalDouble mm = geometry.mmPerPixel();
        boolean hasBar = mm.isPresent() && FilmWords.hasBar(facts.scale());
        String view = FilmWords.view(facts);
        furniture.show(new CutFurniture.Furniture(
                label + " \u00B7 " + view,
                isLarge ? "scale: " + facts.scale().words() + " \u00B7 " + FilmWords.window(window) : "",
                new CutFurniture.Letters(
                        facts.orientation().left(),
                        facts.orientation().right(),
                        facts.orientation().up(),
                        facts.orientation().down()),
                hasBar ? mm.getAsDouble() * surface.outputScale() : 0,
                none,
                none,
                FilmWords.barWords(facts.scale())));
        setAccessibleText("radiograph, " + label + ", " + view + ", scale "
                + facts.scale().words() + ", window " + FilmWords.window(window));
    }

    /** Magnifies at the middle of the picture. */
    void zoom(double factor) {
        mouse.zoom(factor, getWidth() / 2, getHeight() / 2);
    }

    /** Lets go of what is kept for this pane. */
    void close() {
        queue.forget(cell);
        surface.clear();
    }

    @Override
    public void beginGesture() {
        gesture = new Object();
    }

    @Override
    public void step(int steps) {
        // A radiograph has no slices.
    }

    @Override
    public void zoom(double factor, double x, double y) {
        sight.film()
                .ifPresent(film -> sight.look(geometry(film).zoomedAt(factor, x, y), "zoom", "zoom of film " + cell));
    }

    @Override
    public void cross(double x, double y) {
        // No place of the construct is known on a radiograph.
    }

    @Override
    public void pan(double dx, double dy) {
        sight.film().ifPresent(film -> sight.look(geometry(film).panned(dx, dy), "move of the picture", gesture));
    }

    @Override
    public void window(double dx, double dy) {
        sight.dragWindow(dx, dy, gesture);
    }

    private FilmGeometry geometry(Radiograph film) {
        PixelSize size = surface.pixelSize();
        return new FilmGeometry(film.facts(), sight.look(), Math.max(1, size.width()), Math.max(1, size.height()));
    }
}
