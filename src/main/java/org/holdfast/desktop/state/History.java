package org.holdfast.desktop.state;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Objects;
import java.util.Optional;

/**
 * A value with its past: what was done last can be taken back, and done again. Acts of one gesture, such as the many
 * steps of a turning wheel, count as one. Not thread-safe.
 *
 * @param <T> an immutable value
 */
public final class History<T> {

    /** So many acts can be taken back. */
    private static final int DEPTH = 200;

    /** A value and the act that led away from it. */
    private record Step<T>(T before, T after, String act, Object gesture) {}

    private final Deque<Step<T>> done = new ArrayDeque<>();
    private final Deque<Step<T>> undone = new ArrayDeque<>();
    private T now;

    /** A history that begins with a value. */
    public History(T first) {
        this.now = Objects.requireNonNull(first, "first");
    }

    /** The value as it is. */
    public T now() {
        return now;
    }

    /**
     * Replaces the value.
     *
     * @param next the new value; nothing happens if it equals the present one
     * @param act what was done, in words
     * @param gesture acts in a row with an equal gesture are taken back together
     */
    public void become(T next, String act, Object gesture) {
        if (next.equals(now)) {
            return;
        }
        boolean goesOn =
                undone.isEmpty() && !done.isEmpty() && done.peek().gesture().equals(gesture);
        T before = goesOn ? done.pop().before() : now;
        undone.clear();
        now = next;
        done.push(new Step<>(before, next, act, gesture));
        if (done.size() > DEPTH) {
            done.removeLast();
        }
    }

    /** Takes the last act back; tells which it was, empty if there is none. */
    public Optional<String> undo() {
        if (done.isEmpty()) {
            return Optional.empty();
        }
        Step<T> step = done.pop();
        undone.push(step);
        now = step.before();
        return Optional.of(step.act());
    }

    /** Does again what was taken back last; tells which it was, empty if there is none. */
    public Optional<String> redo() {
        if (undone.isEmpty()) {
            return Optional.empty();
        }
        Step<T> step = undone.pop();
        done.push(step);
        now = step.after();
        return Optional.of(step.act());
    }

    /** What would be taken back; empty if there is nothing. */
    public Optional<String> nextUndo() {
        return Optional.ofNullable(done.peek()).map(Step::act);
    }
}
