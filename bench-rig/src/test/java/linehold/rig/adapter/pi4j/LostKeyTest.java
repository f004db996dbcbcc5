package linehold.rig.adapter.pi4j;

import static org.assertj.core.api.Assertions.assertThat;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.ArgumentMatchers.anyBoolean;
import static org.mockito.ArgumentMatchers.anyLong;
import static org.mockito.ArgumentMatchers.anyString;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;

import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.i2c.I2C;
import com.pi4j.library.gpiod.internal.GpioLine;
import com.pi4j.library.gpiod.internal.GpioLineEvent;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import linehold.controller.calibration.Key;
import linehold.rig.board.Board;
import linehold.rig.board.BoardFile;
import linehold.rig.board.Wire;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.SteppedClock;
import linehold.rig.loop.TickRing;
import linehold.rig.port.Watchdog;
import linehold.rig.procedure.Answer;
import linehold.rig.procedure.Bench;
import linehold.rig.procedure.BenchKeys;
import linehold.rig.procedure.KeyGuard;
import linehold.rig.procedure.Outcome;
import linehold.rig.procedure.Procedure;
import linehold.rig.procedure.ProcedureEngine;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A board whose lines are mocks: what becomes of its coils when whoever held the bench key is not heard any more. */
@Timeout(60)
class LostKeyTest {
    @TempDir
    private Path folder;

    private final Map<String, Boolean> level = new HashMap<>();

    private PiCar board() throws IOException {
        Board board = BoardFile.load(Files.writeString(folder.resolve("board.yaml"), BoardFile.example()));
        Hardware hardware = mock(Hardware.class);
        when(hardware.output(anyString(), any(Wire.Output.class), anyBoolean())).thenAnswer(call -> {
            String name = call.getArgument(0);
            level.put(name, call.getArgument(2));
            DigitalOutput line = mock(DigitalOutput.class);
            when(line.state(any())).thenAnswer(set -> {
                level.put(name, set.getArgument(0) == DigitalState.HIGH);
                return line;
            });
            return line;
        });
        List<String> on = List.of("key", "range-neutral");
        when(hardware.input(anyString(), any(Wire.Input.class))).thenAnswer(call -> {
            GpioLine line = mock(GpioLine.class);
            when(line.getValue()).thenReturn(on.contains((String) call.getArgument(0)) ? 0 : 1);
            return line;
        });
        GpioLine pickup = mock(GpioLine.class);
        when(pickup.eventWait(anyLong())).thenAnswer(call -> {
            Thread.sleep(1);
            return false;
        });
        when(hardware.edges(anyString(), any(Wire.Pickup.class))).thenReturn(pickup);
        when(hardware.event()).thenReturn(mock(GpioLineEvent.class));
        I2C converter = mock(I2C.class);
        when(hardware.converter(anyString(), any())).thenReturn(converter);
        when(converter.writeRegister(org.mockito.ArgumentMatchers.eq(1), any(byte[].class)))
                .thenThrow(new Pi4JException("Remote I/O error"));
        return PiCar.open(board, true, () -> {}, hardware, null, System::nanoTime);
    }

    @Test
    void shouldRunThePumpAgainInTheTickAfterTheKeyWasLost() throws IOException {
        Build build = BuildFile.loadNamed("demonstration");
        ProcedureEngine engine = new ProcedureEngine(new Bench(build, 1));
        AtomicLong keyNs = new AtomicLong();
        KeyGuard guard = new KeyGuard(BenchKeys.held(keyNs::get), engine, engine);
        List<Boolean> coil = new ArrayList<>();
        try (PiCar car = board()) {
            ControlLoop[] loop = new ControlLoop[1];
            loop[0] = new ControlLoop(
                    car,
                    (nowNs, in, out) -> {
                        // The level that the tick before has left on the line.
                        coil.add(level.get("main-coil"));
                        int tick = coil.size();
                        if (tick == 2) {
                            engine.start(Procedure.WIRING);
                        } else if (tick == 10) {
                            engine.answer(Answer.yes(engine.view().question()));
                        } else if (tick == 60) {
                            keyNs.addAndGet(3_000_000_001L);
                        } else if (tick == 200) {
                            loop[0].stop();
                        }
                        guard.step(nowNs, in, out);
                    },
                    new SteppedClock(),
                    Watchdog.NONE,
                    true,
                    build.calibration().ns(Key.CONTROL_PERIOD),
                    new RigFaults(),
                    new TickRing(64));
            loop[0].run();
        }
        // Behind the normally closed contact an energised coil means no pump.
        assertThat(coil.subList(12, 60))
                .as("the step has switched the pump off")
                .containsOnly(true);
        assertThat(coil.subList(60, coil.size()))
                .as("from the tick of the loss on")
                .containsOnly(false);
        assertThat(level).containsEntry("main-coil", false).containsEntry("permission-granted", false);
        assertThat(engine.view().result().outcome()).isEqualTo(Outcome.STOPPED);
        assertThat(engine.view().result().sentence()).contains("not heard for 3 s");
    }
}
