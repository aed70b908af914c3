package org.holdfast.desktop.viewmodel;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.holdfast.app.GreyPicture;
import org.holdfast.app.IntakeSession;
import org.holdfast.desktop.viewmodel.BackgroundRunner.Running;

/**
 * Small pictures of the series that were read, made one after another in the background, those that can be seen first.
 * Each is some ten thousand bytes and is kept until something else is read. Belongs to the window's thread.
 */
public final class IntakePictures {

    /** Widest and highest that a picture is made, pixels: twice the room of a card, for screens of double density. */
    public static final int WIDTH = 208;

    /** Highest that a picture is made, pixels. */
    public static final int HEIGHT = 264;

    /** How far a picture is. All are immutable. */
    public sealed interface Picture {

        /** It was not made yet. */
        record Waiting() implements Picture {}

        /**
         * It is there.
         *
         * @param picture the picture
         */
        record Made(GreyPicture picture) implements Picture {}

        /**
         * It cannot be made.
         *
         * @param why why
         */
        record None(String why) implements Picture {}
    }

    private static final Picture WAITING = new Picture.Waiting();

    private final BackgroundRunner runner;
    private final Map<String, ReadOnlyObjectWrapper<Picture>> pictures = new HashMap<>();
    private final Deque<String> wanted = new ArrayDeque<>();
    private Optional<IntakeSession> session = Optional.empty();
    private Optional<Running> running = Optional.empty();

    IntakePictures(BackgroundRunner runner) {
        this.runner = Objects.requireNonNull(runner, "runner");
    }

    /** The picture of a series. */
    public ReadOnlyObjectProperty<Picture> of(String seriesId) {
        return wrapper(seriesId).getReadOnlyProperty();
    }

    /** Asks for pictures, in this order, before all that was asked for earlier. */
    public void want(Collection<String> seriesIds) {
        List<String> first = new ArrayList<>(seriesIds);
        first.removeIf(id -> wrapper(id).get() != WAITING);
        wanted.removeAll(first);
        for (int n = first.size() - 1; n >= 0; n--) {
            wanted.addFirst(first.get(n));
        }
        next();
    }

    /** Whether nothing is being made. */
    public boolean isIdle() {
        return running.isEmpty();
    }

    void of(IntakeSession read) {
        forget();
        session = Optional.of(read);
    }

    void forget() {
        running.ifPresent(Running::cancel);
        running = Optional.empty();
        session = Optional.empty();
        wanted.clear();
        pictures.clear();
    }

    private void next() {
        if (running.isPresent() || session.isEmpty() || wanted.isEmpty()) {
            return;
        }
        String id = wanted.poll();
        IntakeSession from = session.get();
        Running begun = runner.run(
                "picture of a series",
                progress -> from.picture(id, WIDTH, HEIGHT, progress),
                picture -> made(from, id, new Picture.Made(picture)),
                failure -> made(from, id, new Picture.None(FailureText.of(failure))));
        if (!begun.isDone()) {
            running = Optional.of(begun);
        }
    }

    private void made(IntakeSession from, String id, Picture picture) {
        if (session.filter(now -> now == from).isEmpty()) {
            return;
        }
        running = Optional.empty();
        wrapper(id).set(picture);
        next();
    }

    private ReadOnlyObjectWrapper<Picture> wrapper(String seriesId) {
        return pictures.computeIfAbsent(seriesId, id -> new ReadOnlyObjectWrapper<>(WAITING));
    }
}
