package org.holdfast.desktop.render;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.ref.WeakReference;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Slab;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The window's thread is the test's own: it runs a task only when the test takes it. */
@Timeout(30)
class CutQueueTest {

    private final BlockingQueue<Runnable> windowTasks = new LinkedBlockingQueue<>();
    private final Map<Integer, List<Picture>> shown = new TreeMap<>();
    private final List<Throwable> failures = new ArrayList<>();
    private final CutQueue queue = new CutQueue(windowTasks::add, (failure, cell) -> failures.add(failure));
    private final HuVolume volume = TestVolumes.ramp();

    @AfterEach
    void close() {
        queue.close();
    }

    private void ask(int cell, CutRequest request) {
        queue.request(cell, request, picture -> shown.computeIfAbsent(cell, c -> new ArrayList<>())
                .add(picture));
    }

    private void runNextWindowTask() throws InterruptedException {
        Runnable task = windowTasks.poll(20, TimeUnit.SECONDS);
        assertNotNull(task, "nothing was handed over");
        task.run();
    }

    private void runWindowTasksUntilShown(int... cells) throws InterruptedException {
        for (int cell : cells) {
            while (!shown.containsKey(cell)) {
                runNextWindowTask();
            }
        }
    }

    private static int[] drawn(CutRequest request) {
        return new LastCut().draw(request).argb();
    }

    @Test
    void showsTheCutOfEachCell() throws InterruptedException {
        CutRequest one = TestVolumes.slice(volume, 1);
        CutRequest two = TestVolumes.slice(TestVolumes.ramp(70, 0, 1, 2), 1);
        ask(1, one);
        ask(2, two);
        runWindowTasksUntilShown(1, 2);

        assertArrayEquals(drawn(one), shown.get(1).get(0).argb());
        assertArrayEquals(drawn(two), shown.get(2).get(0).argb());
    }

    @Test
    void endsWithTheLatestOfManyRequests() throws InterruptedException {
        CutRequest last = null;
        for (int n = 0; n < 40; n++) {
            // Each picture differs from the one before by 2 HU.
            last = TestVolumes.slice(volume, n / 20.0);
            ask(1, last);
        }
        int[] expected = drawn(last);
        runNextWindowTask();
        while (!Arrays.equals(expected, newest(1).argb())) {
            runNextWindowTask();
        }

        assertTrue(shown.get(1).size() <= 40);
        assertNull(windowTasks.poll(200, TimeUnit.MILLISECONDS));
    }

    private Picture newest(int cell) {
        List<Picture> pictures = shown.get(cell);
        return pictures.get(pictures.size() - 1);
    }

    @Test
    void handsOverOneTaskHoweverManyCellsAreFinished() throws InterruptedException {
        for (int cell = 0; cell < 20; cell++) {
            ask(cell, TestVolumes.slice(volume, 1));
        }
        // Long enough for twenty pictures of 120 pixels; the task is left waiting meanwhile.
        Thread.sleep(300);

        // By hand: the first finished picture posts the task, the others join it
        assertEquals(1, windowTasks.size());
        runNextWindowTask();
        assertEquals(20, shown.size());
    }

    @Test
    void neverShowsAnOvertakenPictureOfAnotherExam() throws InterruptedException {
        HuVolume other = TestVolumes.ramp(90, 0, 1, 2, 3);
        for (int n = 0; n < 100; n++) {
            ask(1, TestVolumes.slice(volume, n / 100.0));
        }
        CutRequest last = TestVolumes.slice(other, 1);
        ask(1, last);
        while (shown.isEmpty() || !windowTasks.isEmpty()) {
            runNextWindowTask();
            Thread.sleep(20);
        }

        for (Picture picture : shown.get(1)) {
            assertArrayEquals(drawn(last), picture.argb());
        }
    }

    @Test
    void showsNothingOfAForgottenCell() throws InterruptedException {
        ask(1, TestVolumes.slice(volume, 1));
        ask(2, TestVolumes.slice(volume, 1));
        queue.forget(1);
        runWindowTasksUntilShown(2);
        Thread.sleep(100);
        while (!windowTasks.isEmpty()) {
            runNextWindowTask();
        }

        assertNull(shown.get(1));
        ask(1, TestVolumes.slice(volume, 1));
        runWindowTasksUntilShown(1);
        assertEquals(1, shown.get(1).size());
    }

    @Test
    void reportsACutThatFailsAndGoesOn() throws InterruptedException {
        CutRequest good = TestVolumes.slice(volume, 1);
        // A slab of more than 5,000 voxels is refused by the reslicer.
        Optional<Slab> tooThick = Optional.of(new Slab(1e6, Slab.Projection.MEAN));
        ask(1, new CutRequest(volume, good.plane(), tooThick, good.window()));
        runNextWindowTask();

        assertEquals(1, failures.size());
        assertInstanceOf(IllegalArgumentException.class, failures.get(0));
        ask(1, good);
        runWindowTasksUntilShown(1);
        assertArrayEquals(drawn(good), shown.get(1).get(0).argb());
    }

    @Test
    void keepsNoVolumeOnceItsPictureIsShown() throws InterruptedException {
        WeakReference<HuVolume> shownOnce = showAndForget();
        for (int n = 0; n < 100 && shownOnce.get() != null; n++) {
            System.gc();
            Thread.sleep(10);
        }

        assertNull(shownOnce.get());
    }

    private WeakReference<HuVolume> showAndForget() throws InterruptedException {
        HuVolume released = TestVolumes.ramp(70, 0, 1, 2);
        ask(1, TestVolumes.slice(released, 1));
        runWindowTasksUntilShown(1);
        return new WeakReference<>(released);
    }

    @Test
    void showsTheOthersWhereOneCellFailsToTakeItsPicture() throws InterruptedException {
        queue.request(1, TestVolumes.slice(volume, 1), picture -> {
            throw new IllegalStateException("no place for it");
        });
        ask(2, TestVolumes.slice(volume, 1));
        runWindowTasksUntilShown(2);

        while (failures.isEmpty()) {
            runNextWindowTask();
        }
        assertEquals("no place for it", failures.get(0).getMessage());
    }

    @Test
    void isSilentOnceClosed() throws InterruptedException {
        ask(1, TestVolumes.slice(volume, 1));
        queue.close();
        ask(2, TestVolumes.slice(volume, 1));
        Thread.sleep(100);
        while (!windowTasks.isEmpty()) {
            runNextWindowTask();
        }

        assertEquals(Map.of(), shown);
    }
}
