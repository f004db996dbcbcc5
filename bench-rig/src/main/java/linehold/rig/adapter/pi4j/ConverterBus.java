package linehold.rig.adapter.pi4j;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import java.util.function.LongSupplier;
import linehold.rig.board.Gain;
import linehold.rig.port.PortException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * All converters of one I2C bus, read in turns on a thread of its own. A transfer may block for a second and cannot be
 * interrupted: then nothing but these values grows old.
 */
final class ConverterBus implements Runnable {
    private static final Logger LOG = LoggerFactory.getLogger(ConverterBus.class);
    /** 1/860 s and a tenth: the converter's own clock is that uncertain (data sheets). */
    private static final long CONVERSION_NS = 1_280_000;

    private static final long AGAIN_NS = 100_000;
    private static final int MOST_TRIES = 10;
    /** A bus on which nothing answers is not asked in a busy loop. */
    private static final long REST_NS = 10_000_000;

    /** One converter and the channels of it that are used. */
    private static final class Member {
        private final String name;
        private final ConverterDevice device;
        private final List<Channel> channels = new ArrayList<>();
        private boolean complaining;
        private boolean started;

        private Member(String name, ConverterDevice device) {
            this.name = name;
            this.device = device;
        }
    }

    private record Channel(int number, Gain gain, ChannelValue value) {}

    private final List<Member> members = new ArrayList<>();
    private final LongSupplier clock;
    private volatile boolean stopping;

    ConverterBus(LongSupplier clock) {
        this.clock = clock;
    }

    /** Before the thread starts. */
    void add(String name, ConverterDevice device) {
        members.add(new Member(name, device));
    }

    /** Before the thread starts. */
    void add(String name, int channel, Gain gain, ChannelValue value) {
        members.stream()
                .filter(member -> member.name.equals(name))
                .forEach(member -> member.channels.add(new Channel(channel, gain, value)));
    }

    @Override
    public void run() {
        while (!stopping) {
            if (round() == 0) {
                LockSupport.parkNanos(REST_NS);
            }
        }
    }

    /** Ends the thread after the transfer of the moment. */
    void stop() {
        stopping = true;
    }

    /** Reads every channel once; the converters convert at the same time. Returns how many gave a value. */
    int round() {
        int turns = members.stream()
                .mapToInt(member -> member.channels.size())
                .max()
                .orElse(0);
        int read = 0;
        for (int turn = 0; turn < turns && !stopping; turn++) {
            for (Member member : members) {
                member.started = turn < member.channels.size() && start(member, member.channels.get(turn));
            }
            LockSupport.parkNanos(CONVERSION_NS);
            for (Member member : members) {
                if (member.started && take(member, member.channels.get(turn))) {
                    read++;
                }
            }
        }
        return read;
    }

    private static boolean start(Member member, Channel channel) {
        try {
            member.device.start(channel.number, channel.gain);
            return true;
        } catch (PortException e) {
            complain(member, e);
            return false;
        }
    }

    private boolean take(Member member, Channel channel) {
        try {
            for (int tries = 0; !member.device.ready(); tries++) {
                if (tries == MOST_TRIES) {
                    throw new PortException("no end of the conversion");
                }
                LockSupport.parkNanos(AGAIN_NS);
            }
            int number = member.device.number();
            channel.value.set(number, clock.getAsLong());
            member.complaining = false;
            return true;
        } catch (PortException e) {
            complain(member, e);
            return false;
        }
    }

    /** Once for each time that a converter goes silent; its values grow old meanwhile. */
    private static void complain(Member member, PortException e) {
        if (!member.complaining) {
            LOG.warn("{} does not answer: {}", member.name, e.getMessage());
        }
        member.complaining = true;
    }
}
