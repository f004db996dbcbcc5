package linehold.rig.adapter.pi4j;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.ArgumentMatchers.anyBoolean;
import static org.mockito.ArgumentMatchers.anyInt;
import static org.mockito.ArgumentMatchers.anyLong;
import static org.mockito.ArgumentMatchers.anyString;
import static org.mockito.ArgumentMatchers.eq;
import static org.mockito.Mockito.clearInvocations;
import static org.mockito.Mockito.doThrow;
import static org.mockito.Mockito.inOrder;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.never;
import static org.mockito.Mockito.times;
import static org.mockito.Mockito.verify;
import static org.mockito.Mockito.when;

import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.i2c.I2C;
import com.pi4j.library.gpiod.internal.GpioDException;
import com.pi4j.library.gpiod.internal.GpioLine;
import com.pi4j.library.gpiod.internal.GpioLineEvent;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import linehold.controller.DrivePermission;
import linehold.controller.Range;
import linehold.rig.board.Board;
import linehold.rig.board.BoardFile;
import linehold.rig.board.Wire;
import linehold.rig.port.OutputPorts;
import linehold.rig.port.PortException;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.mockito.InOrder;

/** A board whose lines are mocks: what is driven when, and what becomes of the rest when one of them fails. */
@Timeout(30)
class PiCarTest {
    @TempDir
    private Path folder;

    private final Hardware hardware = mock(Hardware.class);
    private final Map<String, DigitalOutput> outputs = new HashMap<>();
    private final Map<String, Boolean> safe = new HashMap<>();
    private final Map<String, GpioLine> inputs = new HashMap<>();
    private final I2C converter = mock(I2C.class);
    private final Set<String> begun = ConcurrentHashMap.newKeySet();
    private Board board;

    @BeforeEach
    void connect() throws IOException {
        board = BoardFile.load(Files.writeString(folder.resolve("board.yaml"), BoardFile.example()));
        when(hardware.output(anyString(), any(Wire.Output.class), anyBoolean())).thenAnswer(call -> {
            safe.put(call.getArgument(0), call.getArgument(2));
            return outputs.computeIfAbsent(call.getArgument(0), name -> mock(DigitalOutput.class));
        });
        when(hardware.input(anyString(), any(Wire.Input.class)))
                .thenAnswer(call -> inputs.computeIfAbsent(call.getArgument(0), name -> high()));
        GpioLine pickup = mock(GpioLine.class);
        when(pickup.eventWait(anyLong())).thenAnswer(call -> {
            Thread.sleep(1);
            return false;
        });
        when(hardware.edges(anyString(), any(Wire.Pickup.class))).thenReturn(pickup);
        when(hardware.event()).thenReturn(mock(GpioLineEvent.class));
        when(hardware.converter(anyString(), any())).thenReturn(converter);
        when(converter.writeRegister(eq(1), any(byte[].class))).thenThrow(new Pi4JException("Remote I/O error"));
    }

    /** Pulled up and not touched: off, as the example has its inputs. */
    private static GpioLine high() {
        GpioLine line = mock(GpioLine.class);
        when(line.getValue()).thenReturn(1);
        return line;
    }

    private PiCar open(boolean normallyClosed) {
        return PiCar.open(
                board,
                normallyClosed,
                () -> begun.add(Thread.currentThread().getName()),
                hardware,
                null,
                System::nanoTime);
    }

    @Test
    void shouldHoldEveryOutputAtItsSafeLevelFromTheStart() {
        try (PiCar car = open(true)) {
            assertThat(safe)
                    .containsEntry("main-coil", false)
                    .containsEntry("standby-coil", false)
                    .containsEntry("permission-granted", false)
                    .containsEntry("permission-reduced", false)
                    .containsEntry("lamp", true)
                    .containsEntry("buzzer", false);
            assertThat(car.alive()).as("the converters have not answered").isFalse();
        }
        try (PiCar car = open(false)) {
            assertThat(safe).as("a normally open contact needs its coil").containsEntry("main-coil", true);
        }
    }

    @Test
    void shouldLetEachReadingThreadAskForItsPriorityFirst() {
        open(true).close();

        assertThat(begun).contains("pickup").anyMatch(name -> name.startsWith("i2c-"));
    }

    @Test
    void shouldOpenOutputsBeforeAnythingElse() {
        open(true).close();

        InOrder order = inOrder(hardware);
        order.verify(hardware).output(eq("main-coil"), any(), anyBoolean());
        order.verify(hardware, times(2)).converter(anyString(), any());
        order.verify(hardware).edges(anyString(), any());
    }

    @Test
    void shouldLetGoOfEverythingWhereALineIsBusy() {
        when(hardware.input(eq("brake"), any()))
                .thenThrow(new InputException("brake: line 6: found it busy, expected it free"));

        assertThatThrownBy(() -> open(true)).isInstanceOf(InputException.class).hasMessageContaining("busy");
        verify(hardware).close();
    }

    @Test
    void shouldSetAnActiveLowCoilToItsLevels() throws Exception {
        Wire.Output wire = new Wire.Output(7, false);
        DigitalOutput line = mock(DigitalOutput.class);
        LineOutput coil = new LineOutput(line, wire);

        coil.set(true);
        verify(line).state(DigitalState.LOW);
        coil.set(false);
        verify(line).state(DigitalState.HIGH);
    }

    @Test
    void shouldSetTheOtherOutputsWhereOneFails() throws Exception {
        try (PiCar car = open(true)) {
            OutputPorts ports = car.outputs();
            doThrow(new com.pi4j.io.exception.IOException("gone"))
                    .when(outputs.get("main-coil"))
                    .state(any());
            doThrow(new GpioDException("gone"))
                    .when(outputs.get("permission-granted"))
                    .state(any());

            assertThatThrownBy(() -> ports.mainCoil().set(true))
                    .isInstanceOf(PortException.class)
                    .hasMessage("line 17 cannot be set");
            assertThatThrownBy(() -> ports.permission().set(DrivePermission.REDUCED, 50))
                    .isInstanceOf(PortException.class);
            verify(outputs.get("permission-reduced")).state(DigitalState.HIGH);
            ports.standbyCoil().set(true);
            verify(outputs.get("standby-coil")).state(DigitalState.HIGH);
        }
        verify(outputs.get("lamp")).state(DigitalState.HIGH);
    }

    @Test
    void shouldNeverHaveBothPermissionLinesOn() throws Exception {
        try (PiCar car = open(true)) {
            DigitalOutput granted = outputs.get("permission-granted");
            DigitalOutput reduced = outputs.get("permission-reduced");
            car.outputs().permission().set(DrivePermission.REDUCED, 50);
            clearInvocations(granted, reduced);

            car.outputs().permission().set(DrivePermission.GRANTED, Double.POSITIVE_INFINITY);
            InOrder order = inOrder(granted, reduced);
            order.verify(reduced).state(DigitalState.LOW);
            order.verify(granted).state(DigitalState.HIGH);

            clearInvocations(granted, reduced);
            car.outputs().permission().set(DrivePermission.WITHHELD, 0);
            verify(granted).state(DigitalState.LOW);
            verify(reduced).state(DigitalState.LOW);
            verify(granted, never()).state(DigitalState.HIGH);
        }
    }

    @Test
    void shouldReadSwitchesAndTheRange() throws Exception {
        try (PiCar car = open(true)) {
            assertThat(car.inputs().key().read()).isFalse();
            assertThat(car.inputs().range().read()).as("between two ranges").isNull();

            when(inputs.get("key").getValue()).thenReturn(0);
            when(inputs.get("range-drive").getValue()).thenReturn(0);
            assertThat(car.inputs().key().read()).isTrue();
            assertThat(car.inputs().range().read()).isEqualTo(Range.DRIVE);

            when(inputs.get("range-park").getValue()).thenReturn(0);
            assertThat(car.inputs().range().read()).as("two at once").isNull();

            when(inputs.get("key").getValue()).thenThrow(new GpioDException("input/output error"));
            assertThatThrownBy(() -> car.inputs().key().read())
                    .isInstanceOf(PortException.class)
                    .hasMessage("line 5 cannot be read");
        }
    }

    @Test
    void shouldChangeTheHeartbeatAtEachTickAndSurviveItsFailure() throws Exception {
        try (PiCar car = open(true)) {
            DigitalOutput beat = outputs.get("heartbeat");
            car.heartbeat().feed();
            verify(beat).state(DigitalState.HIGH);
            car.heartbeat().feed();
            verify(beat).state(DigitalState.LOW);

            doThrow(new GpioDException("gone")).when(beat).state(any());
            car.heartbeat().feed();
        }
    }

    @Test
    void shouldTellAContactThatIsALineAsTheBusOrNothing() throws Exception {
        assertThat(new ContactLine(() -> true, () -> 13.2).read()).isEqualTo(13.2);
        assertThat(new ContactLine(() -> false, () -> 13.2).read()).isZero();
        assertThat(new ContactLine(() -> true, () -> {
                            throw new PortException("too old");
                        })
                        .read())
                .as("a contact that is made is not lost with the bus's converter")
                .isEqualTo(12);
    }

    @Test
    void shouldSetSafeLevelsAndKeepTheLinesWhereATransferHangs() throws Exception {
        CountDownLatch released = new CountDownLatch(1);
        CountDownLatch hanging = new CountDownLatch(1);
        I2C stuck = mock(I2C.class);
        when(stuck.writeRegister(anyInt(), any(byte[].class))).thenAnswer(call -> {
            hanging.countDown();
            released.await();
            return 2;
        });
        when(hardware.converter(anyString(), any())).thenReturn(stuck);
        PiCar car = open(true);
        hanging.await();
        car.outputs().mainCoil().set(true);

        car.close();
        InOrder order = inOrder(outputs.get("main-coil"));
        order.verify(outputs.get("main-coil")).state(DigitalState.HIGH);
        order.verify(outputs.get("main-coil")).state(DigitalState.LOW);
        verify(hardware, never()).close();
        released.countDown();
    }

    @Test
    void shouldRefuseASecondProgramOnTheSameBoard() {
        BoardLock first = BoardLock.take(folder, "Bench board");

        assertThatThrownBy(() -> BoardLock.take(folder, "Bench board"))
                .isInstanceOf(InputException.class)
                .hasMessage("board 'Bench board': found another linehold running on it (lock "
                        + folder.resolve("linehold-bench-board.lock") + "), expected none");
        BoardLock.take(folder, "another board").close();

        first.close();
        BoardLock.take(folder, "Bench board").close();
    }

    @Test
    void shouldRefuseAKernelThatKeepsACoilEnergisedWhenTheProgramIsKilled() throws Exception {
        Path parameter = folder.resolve("pinctrl_rp1/parameters/persist_gpio_outputs");
        Files.createDirectories(parameter.getParent());
        Files.writeString(parameter, "Y\n");
        Chip fifth = new Chip("pinctrl-rp1");

        assertThatThrownBy(() -> fifth.refuseLinesThatStay(folder))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("dtparam=strict_gpiod");
        new Chip("pinctrl-bcm2711").refuseLinesThatStay(folder);
        Files.writeString(parameter, "N\n");
        fifth.refuseLinesThatStay(folder);
    }
}
