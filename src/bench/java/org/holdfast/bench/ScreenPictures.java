package org.holdfast.bench;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.stage.Stage;
import javax.imageio.ImageIO;
import org.holdfast.app.DemoSubject;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.SubjectFolder;
import org.holdfast.desktop.MainWindow;
import org.holdfast.desktop.WindowRunner;
import org.holdfast.desktop.state.MapKind;
import org.holdfast.desktop.view.Theme;
import org.holdfast.desktop.viewmodel.NudgeStep;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.progress.Progress;

/**
 * Pictures of every area in both themes at two sizes, of the demo subject, into {@code docs/screens}. Needs no display.
 * The demo is made under {@code target} the first time.
 */
public final class ScreenPictures {

    private static final int[][] SIZES = {{1920, 1080}, {1280, 800}};
    private static final long PATIENCE_S = 300;
    /** The demo's sixth exam, at 24 months. */
    private static final int LAST_EXAM = 5;

    private final Path subjectFolder;
    private final Path handedOver;
    private final Path pictures;

    private ScreenPictures(Path subjectFolder, Path handedOver, Path pictures) {
        this.subjectFolder = subjectFolder;
        this.handedOver = handedOver;
        this.pictures = pictures;
    }

    /** Arguments: folder for the pictures, folder of the demo subject; both may be left out. */
    public static void main(String[] arguments) throws Exception {
        System.setProperty("glass.platform", "Monocle");
        System.setProperty("monocle.platform", "Headless");
        System.setProperty("prism.order", "sw");
        System.setProperty("headless.geometry", "1920x1080-32");
        System.setProperty("java.awt.headless", "true");
        Path pictures = Path.of(arguments.length > 0 ? arguments[0] : "docs/screens");
        Path subject = Path.of(arguments.length > 1 ? arguments[1] : "target/screens-demo");
        if (!Files.exists(subject.resolve(SubjectFolder.DOCUMENT))) {
            DemoSubject.write(subject, DemoSubject.Size.FULL, Progress.NONE);
        }
        Path handedOver = subject.resolveSibling("follow-up discs");
        if (!Files.exists(handedOver)) {
            IntakeExample.write(subject, handedOver);
        }
        Files.createDirectories(pictures);
        CountDownLatch started = new CountDownLatch(1);
        Platform.startup(started::countDown);
        started.await();
        Platform.setImplicitExit(false);
        new ScreenPictures(subject, handedOver, pictures).takeAll();
        Platform.exit();
        System.exit(0);
    }

    private void takeAll() throws Exception {
        for (int[] size : SIZES) {
            Stage stage = fx(Stage::new);
            MainWindow window = fx(() -> new MainWindow(stage, new WindowRunner(Platform::runLater)));
            fx(() -> {
                stage.setWidth(size[0]);
                stage.setHeight(size[1]);
                window.show();
                window.showFirstRun();
                return null;
            });
            takeBoth(window, "first-run", size);
            takeIntake(window, size);
            ReviewSubject subject = ReviewSubject.open(subjectFolder);
            fx(() -> {
                window.showSubject(subject);
                return null;
            });
            await("images and numbers", () -> window.isSettled());
            takeBoth(window, "review", size);
            for (String part : new String[] {"screw-l2-left", "rod-right"}) {
                fx(() -> {
                    window.review().orElseThrow().pick(part, LAST_EXAM);
                    return null;
                });
                await(part, () -> window.isSettled());
                takeBoth(window, "review-" + part, size);
            }
            takeMaps(window, size);
            fx(() -> {
                window.showWholeExam();
                return null;
            });
            await("whole exam", () -> window.isSettled());
            takeBoth(window, "whole-exam", size);
            fx(() -> {
                // The visit at which only radiographs were taken.
                window.review().orElseThrow().pick("rod-right", 4);
                window.showWholeExam();
                return null;
            });
            await("radiographs", () -> window.isSettled());
            takeBoth(window, "whole-exam-film", size);
            fx(() -> {
                window.showKeys();
                return null;
            });
            takeBoth(window, "keys", size);
            fx(() -> {
                window.showLimits();
                return null;
            });
            takeBoth(window, "limits", size);
            fx(() -> {
                window.close();
                stage.close();
                return null;
            });
        }
    }

    /** A face by its change, a screw straightened, and the construct nudged with its outline on; nothing is kept. */
    private void takeMaps(MainWindow window, int[] size) throws Exception {
        ReviewViewModel review = fx(() -> window.review().orElseThrow());
        fx(() -> {
            review.pick("cranial-face", LAST_EXAM);
            review.map(MapKind.CHANGE);
            return null;
        });
        takeBoth(window, "review-change", size);
        fx(() -> {
            review.map(MapKind.BY_FIT);
            review.pick("screw-l2-left", LAST_EXAM);
            review.map(MapKind.STRAIGHTENED);
            return null;
        });
        takeBoth(window, "review-screw-straightened", size);
        fx(() -> {
            review.map(MapKind.ZONE);
            review.pick("cranial-face", LAST_EXAM);
            review.outline(true);
            review.nudge(LAST_EXAM, NudgeStep.CRANIAL, NudgeStep.WIDE, "nudge");
            return null;
        });
        takeBoth(window, "review-nudge", size);
        fx(() -> {
            review.undo();
            review.outline(false);
            review.pick("rod-right", LAST_EXAM);
            return null;
        });
        await("the pose as it was", () -> window.isSettled());
    }

    /** Not yet read, read with a question open, and one series as a whole. */
    private void takeIntake(MainWindow window, int[] size) throws Exception {
        fx(() -> {
            window.showIntake();
            return null;
        });
        takeBoth(window, "intake-empty", size);
        fx(() -> {
            window.read(List.of(handedOver));
            return null;
        });
        await("what was handed over", () -> window.isSettled());
        fx(() -> {
            window.intake().code("S-014");
            window.intake()
                    .operation(Optional.of(
                            ReviewSubject.open(subjectFolder).construct().operationDate()));
            return null;
        });
        takeBoth(window, "intake", size);
        fx(() -> {
            window.scene().getRoot().lookupAll(".series-card").stream()
                    .findFirst()
                    .ifPresent(Node::requestFocus);
            window.showChosenSeries();
            return null;
        });
        await("the series", () -> window.isSettled());
        takeBoth(window, "intake-series", size);
    }

    private void takeBoth(MainWindow window, String area, int[] size) throws Exception {
        for (Theme theme : Theme.values()) {
            fx(() -> {
                window.setTheme(theme);
                return null;
            });
            for (int n = 0; n < 4; n++) {
                Thread.sleep(150);
                await("layout", () -> window.isSettled());
            }
            String name = String.format(
                    Locale.ROOT, "%s-%s-%dx%d.png", area, theme.name().toLowerCase(Locale.ROOT), size[0], size[1]);
            write(fx(() -> window.scene().snapshot(null)), pictures.resolve(name));
            System.out.println(pictures.resolve(name));
        }
        fx(() -> {
            window.setTheme(Theme.DARK);
            return null;
        });
    }

    private static void await(String what, BooleanSupplier done) throws Exception {
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_S);
        int calm = 0;
        while (calm < 3) {
            Thread.sleep(100);
            calm = fx(done::getAsBoolean) ? calm + 1 : 0;
            if (System.nanoTime() > end) {
                throw new IllegalStateException("waited in vain for " + what);
            }
        }
    }

    private static void write(WritableImage image, Path file) throws IOException {
        int width = (int) image.getWidth();
        int height = (int) image.getHeight();
        int[] argb = new int[width * height];
        image.getPixelReader().getPixels(0, 0, width, height, PixelFormat.getIntArgbInstance(), argb, 0, width);
        BufferedImage picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        picture.setRGB(0, 0, width, height, argb, 0, width);
        ImageIO.write(picture, "png", file.toFile());
    }

    private static <T> T fx(Callable<T> work) throws ExecutionException, InterruptedException {
        FutureTask<T> task = new FutureTask<>(work);
        Platform.runLater(task);
        return task.get();
    }
}
