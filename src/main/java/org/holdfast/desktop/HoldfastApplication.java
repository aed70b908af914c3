package org.holdfast.desktop;

import java.nio.file.Path;
import java.util.List;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.stage.Stage;
import org.holdfast.app.BindingsFile;

/** The toolkit's way in; the toolkit makes it. */
public final class HoldfastApplication extends Application {

    private MainWindow window;

    @Override
    public void start(Stage stage) {
        window = new MainWindow(stage, new WindowRunner(Platform::runLater));
        Thread.setDefaultUncaughtExceptionHandler((thread, failure) -> window.report(failure));
        window.readBindings(BindingsFile.place());
        window.show();
        List<String> arguments = getParameters().getRaw();
        if (arguments.isEmpty()) {
            window.showFirstRun();
        } else {
            window.open(Path.of(arguments.get(0)));
        }
    }

    @Override
    public void stop() {
        window.close();
    }
}
