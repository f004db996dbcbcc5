// SPDX-License-Identifier: GPL-2.0
/*
 * An I2C bus that exists only in this kernel, with two converters on it: 16 bit, four channels, a register pointer
 * byte, the layout that Linux's own driver of this common class of chip knows (drivers/iio/adc, the only one with
 * registers "conversion" 0 and "configuration" 1: mux in bits 14..12, full scale in 11..9, single shot in 8, rate in
 * 7..5). Plain I2C, since the i2c-stub of the kernel knows SMBus only.
 *
 * The test plays the car by two files of the adapter in sysfs:
 *   microvolts   "0x48 2 1500000"   voltage at pin 2 of the chip at 0x48
 *   mode         "ok", "silent" (nobody acknowledges), "stuck" (a transfer blocks until the mode changes)
 *
 * A conversion takes its time (one period of the data rate): until then the conversion register holds the previous
 * value, so reading too early shows as the wrong channel.
 */
#include <linux/i2c.h>
#include <linux/ktime.h>
#include <linux/module.h>
#include <linux/wait.h>

#define FIRST_ADDRESS 0x48
#define CHIPS 2
#define CONVERSION 0
#define CONFIGURATION 1
#define START BIT(15)
#define SINGLE_SHOT BIT(8)

enum mode { OK, SILENT, STUCK };
static const char *const mode_names[] = { "ok", "silent", "stuck" };

struct chip {
	u8 pointer;
	u16 registers[4];
	ktime_t ready; /* the conversion under way is complete */
	bool converting;
	int microvolts[4];
};

static struct chip chips[CHIPS];
static enum mode mode = OK;
static DECLARE_WAIT_QUEUE_HEAD(mode_changed);

static const int full_scale_uv[] = { 6144000, 4096000, 2048000, 1024000, 512000, 256000, 256000, 256000 };
static const int samples_per_s[] = { 8, 16, 32, 64, 128, 250, 475, 860 };
/* plus and minus input of each mux setting; -1 is ground */
static const s8 inputs[8][2] = { { 0, 1 }, { 0, 3 }, { 1, 3 }, { 2, 3 }, { 0, -1 }, { 1, -1 }, { 2, -1 }, { 3, -1 } };

static void start(struct chip *chip)
{
	int rate = samples_per_s[(chip->registers[CONFIGURATION] >> 5) & 7];

	chip->ready = ktime_add_ns(ktime_get(), NSEC_PER_SEC / rate);
	chip->converting = true;
}

static void finish(struct chip *chip)
{
	u16 config = chip->registers[CONFIGURATION];
	const s8 *pins = inputs[(config >> 12) & 7];
	s64 uv = READ_ONCE(chip->microvolts[pins[0]]);

	if (!chip->converting || ktime_before(ktime_get(), chip->ready))
		return;
	if (pins[1] >= 0)
		uv -= READ_ONCE(chip->microvolts[pins[1]]);
	uv = div_s64(uv * 32768, full_scale_uv[(config >> 9) & 7]);
	chip->registers[CONVERSION] = (u16)clamp_t(s64, uv, S16_MIN, S16_MAX);
	/* without single shot it goes on converting, and each later look finds the voltage of that moment */
	chip->converting = !(config & SINGLE_SHOT);
}

static void take(struct chip *chip, const u8 *bytes, int length)
{
	if (length >= 1)
		chip->pointer = bytes[0] & 3;
	if (length < 3 || chip->pointer == CONVERSION)
		return;
	chip->registers[chip->pointer] = bytes[1] << 8 | bytes[2];
	if (chip->pointer == CONFIGURATION && (bytes[1] & 0x80 || !(chip->registers[CONFIGURATION] & SINGLE_SHOT)))
		start(chip);
}

static void give(struct chip *chip, u8 *bytes, int length)
{
	u16 value;
	int i;

	finish(chip);
	value = chip->registers[chip->pointer];
	if (chip->pointer == CONFIGURATION)
		value = chip->converting ? value & ~START : value | START;
	for (i = 0; i < length; i++)
		bytes[i] = i % 2 ? value & 0xff : value >> 8;
}

static int transfer(struct i2c_adapter *adapter, struct i2c_msg *messages, int count)
{
	int i;

	wait_event(mode_changed, READ_ONCE(mode) != STUCK);
	for (i = 0; i < count; i++) {
		struct i2c_msg *m = &messages[i];
		unsigned int index = m->addr - FIRST_ADDRESS;

		if (index >= CHIPS || READ_ONCE(mode) == SILENT)
			return -EREMOTEIO;
		if (m->flags & I2C_M_RD)
			give(&chips[index], m->buf, m->len);
		else
			take(&chips[index], m->buf, m->len);
	}
	return count;
}

static u32 functionality(struct i2c_adapter *adapter)
{
	return I2C_FUNC_I2C | I2C_FUNC_SMBUS_EMUL;
}

static const struct i2c_algorithm algorithm = { .master_xfer = transfer, .functionality = functionality };

static struct i2c_adapter adapter = {
	.owner = THIS_MODULE,
	.algo = &algorithm,
	.name = "i2c-adc",
	.nr = 1, /* the bus on the header of a usual board */
};

static ssize_t microvolts_store(struct device *dev, struct device_attribute *attr, const char *text, size_t size)
{
	unsigned int address, pin;
	int uv;

	if (sscanf(text, "%x %u %d", &address, &pin, &uv) != 3 || address - FIRST_ADDRESS >= CHIPS || pin > 3)
		return -EINVAL;
	WRITE_ONCE(chips[address - FIRST_ADDRESS].microvolts[pin], uv);
	return size;
}
static DEVICE_ATTR_WO(microvolts);

static ssize_t mode_store(struct device *dev, struct device_attribute *attr, const char *text, size_t size)
{
	int found = sysfs_match_string(mode_names, text);

	if (found < 0)
		return found;
	WRITE_ONCE(mode, found);
	wake_up_all(&mode_changed);
	return size;
}
static DEVICE_ATTR_WO(mode);

static int __init adc_init(void)
{
	int i, error;

	for (i = 0; i < CHIPS; i++)
		chips[i].registers[CONFIGURATION] = 0x0583; /* after power-up: single shot, differential, 128 a second */
	error = i2c_add_numbered_adapter(&adapter);
	if (error)
		return error;
	error = device_create_file(&adapter.dev, &dev_attr_microvolts);
	if (!error)
		error = device_create_file(&adapter.dev, &dev_attr_mode);
	if (error)
		i2c_del_adapter(&adapter);
	return error;
}

static void __exit adc_exit(void)
{
	i2c_del_adapter(&adapter);
}

module_init(adc_init);
module_exit(adc_exit);
MODULE_LICENSE("GPL");
MODULE_DESCRIPTION("I2C bus with two converters, played by a test");
