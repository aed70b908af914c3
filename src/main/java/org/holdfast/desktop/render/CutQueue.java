package org.holdfast.desktop.render;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.Executor;
import java.util.concurrent.ForkJoinPool;
import java.util.function.Consumer;
import java.util.function.ObjIntConsumer;

/**
 * Draws cuts and radiographs away from the window's thread; of each cell only the latest request counts. Thread-safe.
 *
 * <p>A request replaces one of the same cell that still waits. A picture that is finished when a newer request has come is
 * dropped, unless it shows the same exam at the same size: else the picture would stand still while a key repeats faster
 * than cuts are drawn. A cell's pictures arrive in the order of its requests. Finished pictures are gathered, so that
 * however many there are only one task waits for the window's thread.
 *
 * <p>All cells share one pool of as many workers as there are processors; each worker draws a cell, and helps with
 * another's rows when no cell is left.
 */
public final class CutQueue implements AutoCloseable {

    private final Executor windowThread;
    private final ObjIntConsumer<Throwable> failed;
    private final ForkJoinPool workers;
    private final Map<Integer, Cell> cells = new HashMap<>();
    private final Map<Integer, Finished> finished = new LinkedHashMap<>();
    private boolean posted;
    private boolean closed;

    /** What is asked for; the generation counts the requests of a cell. */
    private record Order(long generation, PictureRequest request, Consumer<Picture> shown) {}

    /** What waits for the window's thread. */
    private record Finished(Order order, Runnable result) {}

    /** All fields but the last pictures are guarded by the queue; these belong to the worker that draws the cell. */
    private static final class Cell {
        private long generation;
        private PictureRequest newest;
        private Order waiting;
        private boolean drawing;
        private final LastCut lastCut = new LastCut();
        private final LastFilm lastFilm = new LastFilm();

        Picture draw(PictureRequest request) {
            if (request instanceof FilmRequest film) {
                return lastFilm.draw(film);
            }
            CutRequest cut = (CutRequest) request;
            Picture picture = lastCut.draw(cut);
            return cut.outline()
                    .map(outline -> outline.over(picture, cut.plane()))
                    .orElse(picture);
        }
    }

    /**
     * @param windowThread runs tasks on the window's thread; pictures and failures are handed over there
     * @param failed told of a cut that failed, with its cell
     */
    public CutQueue(Executor windowThread, ObjIntConsumer<Throwable> failed) {
        this(windowThread, failed, Runtime.getRuntime().availableProcessors());
    }

    CutQueue(Executor windowThread, ObjIntConsumer<Throwable> failed, int workerCount) {
        this.windowThread = Objects.requireNonNull(windowThread, "windowThread");
        this.failed = Objects.requireNonNull(failed, "failed");
        this.workers = new ForkJoinPool(workerCount);
    }

    /**
     * Asks for a picture.
     *
     * @param cell where it is shown; any number that stays with the place
     * @param request what is drawn
     * @param shown takes the picture, on the window's thread; not called if a newer request of the cell overtakes it, or
     *     after {@link #forget} or {@link #close}
     */
    public synchronized void request(int cell, PictureRequest request, Consumer<Picture> shown) {
        if (closed) {
            // A window that closes may still lay out its cells.
            return;
        }
        Cell at = cells.computeIfAbsent(cell, number -> new Cell());
        at.generation++;
        at.newest = request;
        Finished old = finished.get(cell);
        if (old != null && !request.mayFollow(old.order().request())) {
            finished.remove(cell);
        }
        at.waiting = new Order(at.generation, request, shown);
        if (!at.drawing) {
            at.drawing = true;
            workers.execute(() -> draw(cell, at));
        }
    }

    /** Drops what a cell waits for and what is kept for it, so that its volume can be released. */
    public synchronized void forget(int cell) {
        Cell at = cells.remove(cell);
        if (at != null) {
            at.generation++;
            at.newest = null;
            at.waiting = null;
        }
        finished.remove(cell);
    }

    /** Whether nothing is asked for that was not handed over. */
    public synchronized boolean isIdle() {
        return finished.isEmpty() && cells.values().stream().noneMatch(cell -> cell.drawing);
    }

    /** Stops the workers; nothing is handed over any more. */
    @Override
    public synchronized void close() {
        closed = true;
        cells.clear();
        finished.clear();
        workers.shutdown();
    }

    private void draw(int number, Cell cell) {
        Order order = take(cell);
        if (order == null) {
            return;
        }
        try {
            Picture picture = cell.draw(order.request());
            hand(number, cell, order, () -> order.shown().accept(picture));
        } catch (RuntimeException | Error failure) {
            // Out of memory too: the person must be told why a picture is missing.
            hand(number, cell, order, () -> failed.accept(failure, number));
        } finally {
            goOn(number, cell);
        }
    }

    private synchronized Order take(Cell cell) {
        Order order = cell.waiting;
        cell.waiting = null;
        if (order == null || closed) {
            cell.drawing = false;
            return null;
        }
        return order;
    }

    private synchronized void goOn(int number, Cell cell) {
        if (cell.waiting != null && !closed) {
            // Behind the other cells, so that no cell starves them.
            workers.execute(() -> draw(number, cell));
        } else {
            cell.drawing = false;
        }
    }

    private synchronized void hand(int number, Cell cell, Order order, Runnable result) {
        boolean latest = order.generation() == cell.generation;
        if (closed || cells.get(number) != cell || !latest && !cell.newest.mayFollow(order.request())) {
            return;
        }
        if (latest) {
            // Nothing waits for this cell: it must not keep a volume in memory.
            cell.newest = null;
        }
        finished.put(number, new Finished(order, result));
        if (!posted) {
            posted = true;
            windowThread.execute(this::deliver);
        }
    }

    private void deliver() {
        Map<Integer, Finished> results;
        synchronized (this) {
            posted = false;
            results = new LinkedHashMap<>(finished);
            finished.clear();
        }
        results.forEach(this::deliver);
    }

    private void deliver(int number, Finished result) {
        try {
            result.result().run();
        } catch (RuntimeException failure) {
            // One cell that cannot show its picture does not cost the others theirs.
            failed.accept(failure, number);
        }
    }
}
