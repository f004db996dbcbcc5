package linehold.rig.paper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class WorkerTest {
    private final Worker worker = new Worker("tried");
    private final CountDownLatch begun = new CountDownLatch(1);
    private final CountDownLatch never = new CountDownLatch(1);

    @AfterEach
    void close() {
        worker.close();
    }

    private String waitForEver() throws InterruptedException {
        begun.countDown();
        never.await();
        return "never";
    }

    private CompletableFuture<Throwable> failureOf(String asker) {
        CompletableFuture<Throwable> failure = new CompletableFuture<>();
        Thread thread = new Thread(() -> {
            try {
                worker.answer(asker, this::waitForEver);
                failure.complete(null);
            } catch (RuntimeException e) {
                failure.complete(e);
            }
        });
        thread.setDaemon(true);
        thread.start();
        return failure;
    }

    @Test
    void shouldGiveUpWhatRunsWhenTheSameAskerAsksAgain() throws Exception {
        CompletableFuture<Throwable> older = failureOf("page");
        begun.await();
        assertThat(worker.answer("page", () -> "newer")).isEqualTo("newer");
        assertThat(older.get()).isInstanceOf(CancellationException.class);
    }

    @Test
    void shouldLetAnotherAskerWaitForItsTurn() {
        List<String> done = Collections.synchronizedList(new ArrayList<>());
        CountDownLatch go = new CountDownLatch(1);
        worker.execute(() -> {
            try {
                go.await();
                done.add("first");
            } catch (InterruptedException e) {
                done.add("given up");
            }
        });
        go.countDown();
        worker.answer("another", () -> done.add("second"));
        assertThat(done).containsExactly("first", "second");
    }

    @Test
    void shouldEndWhatRunsAndWhatWaitsWhenClosed() throws Exception {
        CompletableFuture<Throwable> runs = failureOf("one");
        begun.await();
        CompletableFuture<Throwable> waits = failureOf("two");
        while (worker.waiting() < 2) {
            Thread.onSpinWait();
        }
        worker.close();
        assertThat(waits.get(30, TimeUnit.SECONDS)).isInstanceOf(CancellationException.class);
        assertThat(runs.get(30, TimeUnit.SECONDS)).isInstanceOf(CancellationException.class);
        assertThatThrownBy(() -> worker.answer("three", () -> "late")).isInstanceOf(CancellationException.class);
    }

    @Test
    void shouldRefuseWhenTooManyWait() throws Exception {
        failureOf("0");
        begun.await();
        for (int i = 1; i < 4; i++) {
            failureOf("" + i);
        }
        while (worker.waiting() < 4) {
            Thread.onSpinWait();
        }
        assertThatThrownBy(() -> worker.answer("5", () -> "too much")).isInstanceOf(Worker.BusyException.class);
    }

    @Test
    void shouldThrowWhatTheWorkThrows() {
        assertThatThrownBy(() -> worker.answer(null, () -> {
                    throw new IllegalArgumentException("none");
                }))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("none");
    }
}
