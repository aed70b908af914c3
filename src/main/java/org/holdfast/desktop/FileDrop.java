package org.holdfast.desktop;

import java.io.File;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import javafx.scene.Scene;
import javafx.scene.input.DragEvent;
import javafx.scene.input.TransferMode;

/** Files, folders and zips that are dropped anywhere on the window. */
final class FileDrop {

    private FileDrop() {}

    /**
     * Takes what is dropped on a scene.
     *
     * @param isOver is told when something that can be dropped comes and goes
     * @param onDrop takes what was dropped
     */
    static void on(Scene scene, Consumer<Boolean> isOver, Consumer<List<Path>> onDrop) {
        scene.addEventFilter(DragEvent.DRAG_OVER, event -> {
            if (event.getDragboard().hasFiles()) {
                // Never moved: whoever lets go of a file here must find it where it was.
                event.acceptTransferModes(TransferMode.COPY, TransferMode.LINK);
                isOver.accept(true);
                event.consume();
            }
        });
        scene.addEventFilter(DragEvent.DRAG_EXITED, event -> {
            if (event.getTarget() == scene || event.getTarget() == scene.getRoot()) {
                isOver.accept(false);
            }
        });
        scene.addEventFilter(DragEvent.DRAG_DROPPED, event -> {
            isOver.accept(false);
            List<Path> paths =
                    event.getDragboard().getFiles().stream().map(File::toPath).toList();
            event.setDropCompleted(!paths.isEmpty());
            event.consume();
            if (!paths.isEmpty()) {
                onDrop.accept(paths);
            }
        });
    }
}
