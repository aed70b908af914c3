package org.holdfast.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import javafx.application.Platform;
import javafx.event.Event;
import javafx.event.EventType;
import javafx.geometry.Rectangle2D;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.SnapshotParameters;
import javafx.scene.image.WritableImage;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import javafx.stage.Stage;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.SubjectCourse;
import org.holdfast.desktop.MainWindow;
import org.holdfast.desktop.WindowRunner;
import org.holdfast.progress.Progress;

/**
 * Frames of the real window, 1920 × 1080, five exams of 512 × 512 × 400 voxels, all linked: from a mouse event on a cut until
 * all ten pictures are shown and painted, the next event at once.
 *
 * <p>Painted: in the first pulse after which nothing waits to be drawn the scene is handed to the painting thread; a
 * snapshot of one pixel, which that thread takes after all that was handed to it before, then comes back.
 */
final class WindowFrames {

    private static final int WIDTH = 1920;
    private static final int HEIGHT = 1080;
    private static final int WARM_UP = 40;
    private static final int FRAMES = 200;
    private static final double GOAL_MEDIAN_MS = 33;
    private static final double GOAL_P95_MS = 66;

    private final MainWindow window;
    private final Node cut;

    private WindowFrames(MainWindow window, Node cut) {
        this.window = window;
        this.cut = cut;
    }

    /** Prints the rows of the window; tells whether the goal is reached. */
    static boolean report() throws Exception {
        Path folder = measuredSubject();
        CountDownLatch started = new CountDownLatch(1);
        Platform.startup(started::countDown);
        started.await();
        Platform.setImplicitExit(false);
        ReviewSubject subject = ReviewSubject.open(folder);
        FullSizeExams exams = new FullSizeExams(subject);
        Stage stage = fx(Stage::new);
        MainWindow window = fx(() -> new MainWindow(stage, new WindowRunner(Platform::runLater)));
        fx(() -> {
            stage.setWidth(WIDTH);
            stage.setHeight(HEIGHT);
            window.show();
            window.showSubject(subject, exams);
            return null;
        });
        awaitSettled(window);
        List<Node> cuts = new ArrayList<>();
        gather(window.scene().getRoot(), cuts);
        WindowFrames frames = new WindowFrames(window, cuts.get(cuts.size() / 2));
        System.out.printf(
                Locale.ROOT,
                "window %.0f × %.0f, %d cuts, the chosen one %.0f × %.0f; %d frames a row after %d%n",
                stage.getWidth(),
                stage.getHeight(),
                cuts.size(),
                frames.cut.getLayoutBounds().getWidth(),
                frames.cut.getLayoutBounds().getHeight(),
                FRAMES,
                WARM_UP);
        boolean reached = frames.row("stepping", frames::step);
        reached &= frames.row("windowing", frames::drag);
        reached &= frames.row("magnifying", frames::magnify);
        reached &= frames.row("stepping and windowing in turn", n -> {
            if (n % 2 == 0) {
                frames.step(n / 2);
            } else {
                frames.drag(n / 2);
            }
        });
        System.out.printf(
                Locale.ROOT,
                "goal: median ≤ %.0f ms, 95th percentile ≤ %.0f ms: %s%n",
                GOAL_MEDIAN_MS,
                GOAL_P95_MS,
                reached ? "reached" : "missed");
        fx(() -> {
            window.close();
            stage.close();
            return null;
        });
        remove(folder);
        return reached;
    }

    private interface Act {
        void run(int n);
    }

    private boolean row(String name, Act act) throws Exception {
        double[] ms = new double[FRAMES];
        for (int n = -WARM_UP; n < FRAMES; n++) {
            int frame = n;
            long from = System.nanoTime();
            frame(() -> act.run(frame + WARM_UP));
            if (n >= 0) {
                ms[n] = (System.nanoTime() - from) / 1e6;
            }
        }
        java.util.Arrays.sort(ms);
        double median = ms[FRAMES / 2];
        double p95 = ms[(int) (0.95 * FRAMES)];
        System.out.printf(Locale.ROOT, "%-32s median %5.1f ms, 95th percentile %5.1f ms%n", name, median, p95);
        return median <= GOAL_MEDIAN_MS && p95 <= GOAL_P95_MS;
    }

    private void frame(Runnable act) throws Exception {
        CountDownLatch painted = new CountDownLatch(1);
        Runnable[] listener = new Runnable[1];
        listener[0] = () -> {
            if (window.isSettled()) {
                window.scene().removePostLayoutPulseListener(listener[0]);
                Platform.runLater(() -> {
                    onePixel();
                    painted.countDown();
                });
            } else {
                Platform.requestNextPulse();
            }
        };
        Platform.runLater(() -> {
            act.run();
            window.scene().addPostLayoutPulseListener(listener[0]);
            Platform.requestNextPulse();
        });
        if (!painted.await(20, TimeUnit.SECONDS)) {
            throw new IllegalStateException("a frame was not painted within 20 s");
        }
    }

    private void onePixel() {
        SnapshotParameters parameters = new SnapshotParameters();
        parameters.setViewport(new Rectangle2D(0, 0, 1, 1));
        cut.snapshot(parameters, new WritableImage(1, 1));
    }

    /** One notch of the wheel, forth and back through the face. */
    private void step(int n) {
        wheel(n / 20 % 2 == 0 ? -40 : 40, false);
    }

    private void magnify(int n) {
        wheel(n / 8 % 2 == 0 ? 40 : -40, true);
    }

    private void drag(int n) {
        double x = 60 + n % 40;
        mouse(MouseEvent.MOUSE_PRESSED, x, 60);
        mouse(MouseEvent.MOUSE_DRAGGED, x + (n / 20 % 2 == 0 ? 6 : -6), 63);
        mouse(MouseEvent.MOUSE_RELEASED, x, 63);
    }

    private void wheel(double turned, boolean control) {
        Event.fireEvent(
                cut,
                new ScrollEvent(
                        ScrollEvent.SCROLL,
                        60,
                        60,
                        60,
                        60,
                        false,
                        control,
                        false,
                        false,
                        false,
                        false,
                        0,
                        turned,
                        0,
                        turned,
                        ScrollEvent.HorizontalTextScrollUnits.NONE,
                        0,
                        ScrollEvent.VerticalTextScrollUnits.NONE,
                        0,
                        0,
                        null));
    }

    private void mouse(EventType<MouseEvent> type, double x, double y) {
        Event.fireEvent(
                cut,
                new MouseEvent(
                        type,
                        x,
                        y,
                        x,
                        y,
                        MouseButton.PRIMARY,
                        1,
                        false,
                        false,
                        true,
                        false,
                        true,
                        false,
                        false,
                        true,
                        false,
                        true,
                        null));
    }

    private static void gather(Node node, List<Node> cuts) {
        if (node.getClass().getSimpleName().equals("CutPane")) {
            cuts.add(node);
        }
        if (node instanceof Parent parent) {
            parent.getChildrenUnmodifiable().forEach(child -> gather(child, cuts));
        }
    }

    private static void awaitSettled(MainWindow window) throws Exception {
        int calm = 0;
        while (calm < 10) {
            Thread.sleep(100);
            calm = fx(window::isSettled) ? calm + 1 : 0;
        }
    }

    /** A copy of the sample subject, measured, so that nothing is measured while frames are timed. */
    private static Path measuredSubject() throws Exception {
        Path folder = Files.createTempDirectory("holdfast-frames");
        Path sample = Path.of("sample-images/demo-subject");
        try (Stream<Path> all = Files.walk(sample)) {
            for (Path each : all.toList()) {
                copy(each, folder.resolve(sample.relativize(each).toString()));
            }
        }
        SubjectCourse.measure(ReviewSubject.open(folder), Progress.NONE);
        return folder;
    }

    private static void copy(Path from, Path to) throws IOException {
        if (Files.isDirectory(from)) {
            Files.createDirectories(to);
        } else {
            Files.copy(from, to);
        }
    }

    private static void remove(Path folder) throws IOException {
        List<Path> deepestFirst;
        try (Stream<Path> all = Files.walk(folder)) {
            deepestFirst = all.sorted(java.util.Comparator.reverseOrder()).toList();
        }
        for (Path each : deepestFirst) {
            Files.delete(each);
        }
    }

    private static <T> T fx(Callable<T> work) throws Exception {
        FutureTask<T> task = new FutureTask<>(work);
        Platform.runLater(task);
        return task.get();
    }
}
