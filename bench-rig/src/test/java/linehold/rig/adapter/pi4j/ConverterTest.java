package linehold.rig.adapter.pi4j;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.ArgumentMatchers.anyInt;
import static org.mockito.ArgumentMatchers.eq;
import static org.mockito.Mockito.doAnswer;
import static org.mockito.Mockito.doThrow;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;

import com.pi4j.exception.Pi4JException;
import com.pi4j.io.i2c.I2C;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import linehold.rig.board.Gain;
import linehold.rig.board.Volts;
import linehold.rig.board.Wire;
import linehold.rig.port.AnalogInput;
import linehold.rig.port.PortException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Converters that answer, that fail, and that hang: only their own values are ever absent. */
class ConverterTest {
    private static final long MS = 1_000_000;
    private static final long OLDEST_NS = 100 * MS;

    private long nowNs = 5_000 * MS;
    private final ConverterBus bus = new ConverterBus(() -> nowNs);

    /** A register file with a value for each channel, as the data sheets describe it. */
    private static final class Registers {
        private final int[] numbers = new int[4];
        private int configuration = 0x8583;
        private final I2C device = mock(I2C.class);

        Registers() {
            when(device.writeRegister(eq(1), any(byte[].class))).thenAnswer(call -> {
                byte[] data = (byte[]) call.getRawArguments()[1];
                configuration = (data[0] & 0xff) << 8 | data[1] & 0xff;
                return 2;
            });
            when(device.readRegister(anyInt(), any(byte[].class))).thenAnswer(call -> {
                int value = call.<Integer>getArgument(0) == 1 ? configuration : numbers[configuration >> 12 & 3];
                byte[] into = (byte[]) call.getRawArguments()[1];
                into[0] = (byte) (value >> 8);
                into[1] = (byte) value;
                return 2;
            });
        }
    }

    private AnalogInput channel(String converter, int channel, double divider) {
        ChannelValue value = new ChannelValue();
        bus.add(converter, channel, Gain.V4_096, value);
        Wire.Analog wire = new Wire.Analog(1, channel, Gain.V4_096, divider, new Volts());
        return new ChannelInput(value, wire, OLDEST_NS, AnalogInput.ABSENT, () -> nowNs);
    }

    @Test
    void shouldReadEachChannelOfTwoConvertersInOneRound() throws Exception {
        Registers one = new Registers();
        Registers two = new Registers();
        bus.add("adc-1", new ConverterDevice(one.device));
        bus.add("adc-2", new ConverterDevice(two.device));
        AnalogInput first = channel("adc-1", 0, 1);
        AnalogInput second = channel("adc-1", 3, 5.7);
        AnalogInput other = channel("adc-2", 2, 1);
        // 1 LSB is 125 µV at a full scale of 4.096 V, as makers' data sheets tabulate it.
        one.numbers[0] = 8000;
        one.numbers[3] = 16000;
        two.numbers[2] = -8;

        assertThat(bus.round()).isEqualTo(3);
        assertThat(first.read()).isCloseTo(1.0, within(1e-12));
        assertThat(second.read()).isCloseTo(2.0 * 5.7, within(1e-12));
        assertThat(other.read()).isCloseTo(-0.001, within(1e-12));
    }

    @Test
    void shouldWriteTheConfigurationOfASingleConversionAgainstGround() throws Exception {
        Registers registers = new Registers();
        ConverterDevice device = new ConverterDevice(registers.device);

        device.start(2, Gain.V2_048);
        // 1 110 010 1 111 00011: start, channel 2 against ground, 2.048 V, single, 860/s, comparator off (data sheets).
        assertThat(registers.configuration).isEqualTo(0b1_110_010_1_111_00011);
    }

    @Test
    void shouldHaveNoValueBeforeTheFirstAndAfterTheLastGoodRead() throws Exception {
        Registers registers = new Registers();
        bus.add("adc-1", new ConverterDevice(registers.device));
        AnalogInput input = channel("adc-1", 1, 1);
        assertThatThrownBy(input::read).isInstanceOf(PortException.class);

        bus.round();
        nowNs += OLDEST_NS;
        assertThat(input.read()).isZero();

        doThrow(new Pi4JException("Remote I/O error")).when(registers.device).writeRegister(eq(1), any(byte[].class));
        assertThat(bus.round()).isZero();
        nowNs += MS;
        assertThatThrownBy(input::read)
                .isInstanceOf(PortException.class)
                .hasMessage("channel 1 of adc-1 has no value of the last 100 ms");
    }

    @Test
    void shouldGoOnWithTheOtherConverterWhereOneDoesNotAnswer() throws Exception {
        Registers good = new Registers();
        I2C silent = mock(I2C.class);
        when(silent.writeRegister(eq(1), any(byte[].class))).thenThrow(new Pi4JException("Connection timed out"));
        bus.add("adc-1", new ConverterDevice(silent));
        bus.add("adc-2", new ConverterDevice(good.device));
        AnalogInput absent = channel("adc-1", 0, 1);
        AnalogInput present = channel("adc-2", 0, 1);
        good.numbers[0] = 800;

        assertThat(bus.round()).isEqualTo(1);
        assertThat(present.read()).isCloseTo(0.1, within(1e-12));
        assertThatThrownBy(absent::read).isInstanceOf(PortException.class);
    }

    @Test
    void shouldTakeNoValueOfAConverterThatDoesSomethingElseThanItWasTold() {
        Registers registers = new Registers();
        bus.add("adc-1", new ConverterDevice(registers.device));
        AnalogInput input = channel("adc-1", 1, 1);
        // It was reset meanwhile, or the write went to another device.
        doAnswer(call -> 2).when(registers.device).writeRegister(eq(1), any(byte[].class));

        assertThat(bus.round()).isZero();
        assertThatThrownBy(input::read).isInstanceOf(PortException.class);
    }

    @Test
    void shouldTakeNoValueOfAConversionThatDoesNotEnd() {
        Registers registers = new Registers();
        bus.add("adc-1", new ConverterDevice(registers.device));
        channel("adc-1", 1, 1);
        when(registers.device.writeRegister(eq(1), any(byte[].class))).thenAnswer(call -> {
            byte[] data = (byte[]) call.getRawArguments()[1];
            registers.configuration = (data[0] & 0x7f) << 8 | data[1] & 0xff;
            return 2;
        });

        assertThat(bus.round()).isZero();
    }

    @Test
    @Timeout(20)
    void shouldReadAtOnceWhileATransferHangsInTheKernel() throws Exception {
        CountDownLatch hanging = new CountDownLatch(1);
        CountDownLatch released = new CountDownLatch(1);
        I2C device = mock(I2C.class);
        when(device.writeRegister(eq(1), any(byte[].class))).thenAnswer(call -> {
            hanging.countDown();
            released.await();
            return 2;
        });
        bus.add("adc-1", new ConverterDevice(device));
        AnalogInput input = channel("adc-1", 0, 1);
        Thread thread = new Thread(bus);
        thread.start();
        assertThat(hanging.await(10, TimeUnit.SECONDS)).isTrue();

        assertThatThrownBy(input::read).isInstanceOf(PortException.class);
        assertThat(thread.isAlive()).isTrue();

        bus.stop();
        released.countDown();
        thread.join();
    }
}
